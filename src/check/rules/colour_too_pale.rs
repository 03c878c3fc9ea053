//! A club's colour that cannot be read on the page.
//! Never changes it; a darker or lighter one is for the club to choose.

use crate::check::Rule;
use crate::finding::{Code, Finding, Placed, Severity};
use crate::gym::Gym;
use crate::library::colour::{Colour, DARK_GROUNDS, LEAST, LIGHT_GROUNDS};

/// The rule.
pub const RULE: Rule = Rule {
    code: Code("colour-too-pale"),
    severity: Severity::Warning,
    what: "A colour of the club stands out too little from the page that it lies on.",
    why: "Links and numbers in it cannot be read in a bright hall, nor by everybody.",
    example: r##"
colours: {light: "#ffcc00", dark: "#ffcc00"}
"##,
    next: "Take a darker colour for the light page, a lighter one for the dark page.",
    run: Some(run),
};

fn run(gym: &Gym) -> Vec<Finding> {
    let Some(colours) = &gym.library.club.colours else { return Vec::new() };
    let light = pale(&colours.light, &LIGHT_GROUNDS, ("light", "darker"));
    let dark = pale(&colours.dark, &DARK_GROUNDS, ("dark", "lighter"));
    light.into_iter().chain(dark).collect()
}

fn pale(
    colour: &Placed<Colour>,
    grounds: &[Colour],
    (page, better): (&str, &str),
) -> Option<Finding> {
    let contrast = colour.value.least_contrast(grounds);
    (contrast < LEAST).then(|| {
        // Rounded down, so that 4.49 does not read as enough.
        let contrast = (contrast * 10.0).floor() / 10.0;
        let headline = format!(
            "on the {page} page `{}` has a contrast of {contrast}, of at least {LEAST}",
            colour.value
        );
        RULE.finding(headline, colour.span)
            .help(format!("take a {better} one (WCAG 2.2, level AA)"))
    })
}
