//! Style: the one style sheet of all figures, in the page's own colours.
//! One ink, one accent, on paper: `--ink`, `--paper`, `--accent`; light and dark follow
//! the page. Never a colour of its own inside a page.

/// The rules; the theme includes them once. Shades are mixtures of ink and paper, so nothing is
/// see-through and overlaps stay clean. A page may set `--figure-paper` where the figure stands
/// on another ground.
pub const SHEET: &str = "\
.fig{--fp:var(--figure-paper,var(--paper));--i:var(--ink);--sk:60%;--sh:82%;--cl:100%;--so:46%;--fk:32%;--fi:42%;--fc:52%;--gt:16%;--fr:9%}\
@media(prefers-color-scheme:dark){.fig{--sk:84%;--sh:56%;--cl:36%;--so:70%;--fk:52%;--fi:38%;--fc:26%;--gt:20%;--fr:13%}}\
.fig path{stroke-linecap:round;stroke-linejoin:round}\
.fig .ns{fill:color-mix(in srgb,var(--i) var(--sk),var(--fp))}\
.fig .nt{fill:color-mix(in srgb,var(--i) var(--sh),var(--fp))}\
.fig .nl,.fig .nf,.fig .nh{fill:color-mix(in srgb,var(--i) var(--cl),var(--fp))}\
.fig .fs{fill:color-mix(in srgb,var(--i) var(--fk),var(--fp))}\
.fig .ft{fill:color-mix(in srgb,var(--i) var(--fi),var(--fp))}\
.fig .fl,.fig .ff{fill:color-mix(in srgb,var(--i) var(--fc),var(--fp))}\
.fig .ey{stroke:color-mix(in srgb,var(--i) var(--cl),var(--fp))}\
.fig .so{fill:none;stroke:color-mix(in srgb,var(--i) var(--so),var(--fp));stroke-width:1.2}\
.fig .sh{fill:none;stroke:color-mix(in srgb,var(--i) 26%,var(--fp));stroke-width:3}\
.fig .se{fill:color-mix(in srgb,var(--i) 50%,var(--fp))}\
.fig .ha{fill:var(--fp);stroke:var(--fp);stroke-width:2.2}\
.fig .fo{fill:color-mix(in srgb,var(--i) var(--fr),var(--fp))}\
.fig .gh{fill:color-mix(in srgb,var(--i) var(--gt),var(--fp))}\
.fig .ki{fill:color-mix(in srgb,var(--i) 13%,var(--fp));stroke:color-mix(in srgb,var(--i) 55%,var(--fp));stroke-width:.9}\
.fig .kt{fill:color-mix(in srgb,var(--i) 5%,var(--fp));stroke:color-mix(in srgb,var(--i) 55%,var(--fp));stroke-width:.9}\
.fig .ke{fill:color-mix(in srgb,var(--i) 22%,var(--fp));stroke:color-mix(in srgb,var(--i) 55%,var(--fp));stroke-width:.9}\
.fig .kl,.fig .th,.fig .ro,.fig .rf,.fig .ba,.fig .bf,.fig .ar,.fig .ah,.fig .st{fill:none}\
.fig .kl{stroke:color-mix(in srgb,var(--i) 58%,var(--fp))}\
.fig .th{stroke:color-mix(in srgb,var(--i) 55%,var(--fp));stroke-width:.9}\
.fig .we{fill:var(--i);stroke:var(--fp);stroke-width:1}\
.fig .wf{fill:color-mix(in srgb,var(--i) 54%,var(--fp));stroke:var(--fp);stroke-width:1}\
.fig .ro{stroke:var(--i)}\
.fig .rf{stroke:color-mix(in srgb,var(--i) 50%,var(--fp))}\
.fig .ba{stroke:var(--accent)}\
.fig .bf{stroke:color-mix(in srgb,var(--accent) 55%,var(--fp))}\
.fig .ar{stroke:var(--accent);stroke-width:2.8}\
.fig .ah{stroke:var(--fp)}\
.fig .kl:not([stroke-width]){stroke-width:3.2}\
.fig .ro:not([stroke-width]),.fig .rf:not([stroke-width]){stroke-width:1.7}\
.fig .ah:not([stroke-width]){stroke-width:5.6}\
.fig .ey:not([stroke-width]){stroke-width:1.8}\
.fig .st{stroke:color-mix(in srgb,var(--i) 40%,var(--fp));stroke-width:2.6}";

/// The rules of [`SHEET`] that a drawing uses: a file of its own carries no others.
pub fn used_by(drawing: &str) -> String {
    let used = |class: &str| drawing.contains(&format!("class=\"{class}\""));
    // A rule without a class of its own is for every drawing.
    let wanted = |rule: &&str| {
        let mut classes = rule.split(".fig .").skip(1).filter_map(|rest| rest.get(..2)).peekable();
        classes.peek().is_none() || classes.any(used)
    };
    SHEET.split_inclusive('}').filter(wanted).collect()
}

/// Colours for a figure that stands alone, outside any page: light, and dark where the reader
/// asks for dark.
pub const ALONE: &str = "\
:root{--ink:#26323a;--paper:#fbfaf6;--accent:#b4471b}\
@media(prefers-color-scheme:dark){:root{--ink:#ece8dd;--paper:#1d262b;--accent:#f0a35e}}";
