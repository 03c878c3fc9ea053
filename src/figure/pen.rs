//! The pen: SVG path data with relative numbers of one decimal, as short as they go.
//! Rounds every point once, so that relative steps never drift.

use super::camera::Spot;
use std::fmt::Write;

/// A text as it may stand in an element.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// A number of tenths as text: `.5`, `-12.3`, `7`.
fn tenths(value: i64) -> String {
    let sign = if value < 0 { "-" } else { "" };
    let (whole, part) = (value.abs() / 10, value.abs() % 10);
    match (whole, part) {
        (_, 0) => format!("{sign}{whole}"),
        (0, p) => format!("{sign}.{p}"),
        (w, p) => format!("{sign}{w}.{p}"),
    }
}

fn in_tenths(value: f64) -> i64 {
    (value * 10.0).round() as i64
}

/// A number with one decimal, without trailing zeros and without a minus before zero.
pub fn num(value: f64) -> String {
    tenths(in_tenths(value))
}

/// Numbers joined as tightly as path data allows.
pub fn nums(values: &[f64]) -> String {
    join(values.iter().map(|v| in_tenths(*v)))
}

fn join(values: impl Iterator<Item = i64>) -> String {
    let mut out = String::new();
    for value in values {
        let text = tenths(value);
        let tight = text.starts_with('-')
            || (text.starts_with('.') && out.contains('.') && last_has_point(&out));
        if !out.is_empty() && !tight {
            out.push(' ');
        }
        out.push_str(&text);
    }
    out
}

/// Whether the last number has a point already, so that another point starts a new number.
fn last_has_point(text: &str) -> bool {
    text.rsplit([' ', '-']).next().is_some_and(|last| last.contains('.'))
}

/// Draws paths.
#[derive(Debug, Default)]
pub struct Pen {
    out: String,
    at: (i64, i64),
    start: (i64, i64),
}

impl Pen {
    /// A pen at the start of a path.
    pub fn at(start: Spot) -> Pen {
        let mut pen = Pen::default();
        pen.lift_to(start);
        pen
    }

    /// Start a new piece of the path.
    pub fn lift_to(&mut self, to: Spot) {
        let to = (in_tenths(to.x), in_tenths(to.y));
        let _ = write!(self.out, "M{}", join([to.0, to.1].into_iter()));
        (self.at, self.start) = (to, to);
    }

    fn step(&self, to: Spot) -> (i64, i64) {
        (in_tenths(to.x) - self.at.0, in_tenths(to.y) - self.at.1)
    }

    fn go(&mut self, by: (i64, i64)) {
        self.at = (self.at.0 + by.0, self.at.1 + by.1);
    }

    /// A straight line.
    pub fn line(&mut self, to: Spot) {
        let by = self.step(to);
        let _ = write!(self.out, "l{}", join([by.0, by.1].into_iter()));
        self.go(by);
    }

    /// A cubic curve.
    pub fn cubic(&mut self, one: Spot, two: Spot, to: Spot) {
        let (a, b, c) = (self.step(one), self.step(two), self.step(to));
        let _ = write!(self.out, "c{}", join([a.0, a.1, b.0, b.1, c.0, c.1].into_iter()));
        self.go(c);
    }

    /// A cubic curve that goes on from the one before: its first handle mirrors that one's last, and is
    /// not written.
    fn cubic_on(&mut self, two: Spot, to: Spot) {
        let (b, c) = (self.step(two), self.step(to));
        let _ = write!(self.out, "s{}", join([b.0, b.1, c.0, c.1].into_iter()));
        self.go(c);
    }

    /// A quadratic curve.
    pub fn quadratic(&mut self, bend: Spot, to: Spot) {
        let (a, b) = (self.step(bend), self.step(to));
        let _ = write!(self.out, "q{}", join([a.0, a.1, b.0, b.1].into_iter()));
        self.go(b);
    }

    /// A piece of a circle: the larger one or not, clockwise or not.
    pub fn arc(&mut self, radius: f64, large: bool, clockwise: bool, to: Spot) {
        let by = self.step(to);
        let r = num(radius);
        let flags = format!("{}{}", u8::from(large), u8::from(clockwise));
        let end = join([by.0, by.1].into_iter());
        let _ = write!(self.out, "a{r} {r} 0 {}{end}", flags.replace('0', "0 ").replace('1', "1 "));
        self.go(by);
    }

    /// A smooth curve through points, the first being where the pen is.
    pub fn smooth(&mut self, points: &[Spot]) {
        for i in 0..points.len().saturating_sub(1) {
            let a = points[i.saturating_sub(1)];
            let (b, c) = (points[i], points[i + 1]);
            let d = points[(i + 2).min(points.len() - 1)];
            let last = c.along(b.to(d), -1.0 / 6.0);
            match i {
                0 => self.cubic(b.along(a.to(c), 1.0 / 6.0), last, c),
                _ => self.cubic_on(last, c),
            }
        }
    }

    /// Back to the start of the piece.
    pub fn close(&mut self) {
        self.out.push('z');
        self.at = self.start;
    }

    /// The path data.
    pub fn path(self) -> String {
        self.out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        assert_eq!(nums(&[1.04, -0.04, 0.24, -0.25, 10.0, 0.5, 0.5]), "1 0 .2-.3 10 .5.5");
    }

    #[test]
    fn a_smooth_curve_writes_no_handle_twice() {
        let spot = |x: f64, y: f64| Spot { x, y };
        let points = [spot(0.0, 0.0), spot(6.0, 0.0), spot(12.0, 6.0)];
        let mut pen = Pen::at(points[0]);
        pen.smooth(&points);
        // Through (6, 0) with handles of a sixth of the way from (0, 0) to (12, 6) on both sides.
        assert_eq!(pen.path(), "M0 0c1 0 4-1 6 0s5 5 6 6");
    }
}
