//! Paper: what has been drawn so far, in order, and how much room it takes.
//! Collects shapes and bounds; it decides nothing about looks.

use super::camera::{Spot, spot};
use super::outline::Round;
use super::pen::num;

/// The look of a shape: a class that the page's style sheet colours. See `style`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the table in `style` says what each is
pub enum Ink {
    Skin,
    Shirt,
    Shorts,
    Shoe,
    Hair,
    Eye,
    FarSkin,
    FarShirt,
    FarShorts,
    FarShoe,
    Sole,
    Shadow,
    Halo,
    Floor,
    Ghost,
    Kit,
    KitTop,
    KitEnd,
    Section,
    KitLine,
    Thin,
    Weight,
    FarWeight,
    Rope,
    FarRope,
    Band,
    FarBand,
    Arrow,
    ArrowHalo,
    Step,
}

impl Ink {
    /// The class name: two letters, because a figure names it dozens of times.
    pub fn class(self) -> &'static str {
        match self {
            Ink::Skin => "ns",
            Ink::Shirt => "nt",
            Ink::Shorts => "nl",
            Ink::Shoe => "nf",
            Ink::Hair => "nh",
            Ink::Eye => "ey",
            Ink::FarSkin => "fs",
            Ink::FarShirt => "ft",
            Ink::FarShorts => "fl",
            Ink::FarShoe => "ff",
            Ink::Sole => "so",
            Ink::Shadow => "sh",
            Ink::Halo => "ha",
            Ink::Floor => "fo",
            Ink::Ghost => "gh",
            Ink::Kit => "ki",
            Ink::KitTop => "kt",
            Ink::KitEnd => "ke",
            Ink::Section => "se",
            Ink::KitLine => "kl",
            Ink::Thin => "th",
            Ink::Weight => "we",
            Ink::FarWeight => "wf",
            Ink::Rope => "ro",
            Ink::FarRope => "rf",
            Ink::Band => "ba",
            Ink::FarBand => "bf",
            Ink::Arrow => "ar",
            Ink::ArrowHalo => "ah",
            Ink::Step => "st",
        }
    }
}

/// One shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Its look.
    pub ink: Ink,
    /// Path data.
    pub path: String,
    /// Line width in centimetres, for strokes that are not the class's own.
    pub width: Option<f64>,
    /// Whose it is: 0 for kit and floor, otherwise the part of the body, see [`Paper::of`].
    pub whose: usize,
}

impl Shape {
    /// Whether one path can be both.
    fn looks_like(&self, other: &Shape) -> bool {
        (self.ink, self.width, self.whose) == (other.ink, other.width, other.whose)
    }
}

/// How far something reaches, centimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Top left corner.
    pub min: Spot,
    /// Bottom right corner.
    pub max: Spot,
}

impl Bounds {
    /// Nothing yet.
    pub const EMPTY: Bounds = Bounds {
        min: spot(f64::INFINITY, f64::INFINITY),
        max: spot(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// Make room for a circle.
    pub fn include(&mut self, c: Round) {
        self.min = spot(self.min.x.min(c.at.x - c.r), self.min.y.min(c.at.y - c.r));
        self.max = spot(self.max.x.max(c.at.x + c.r), self.max.y.max(c.at.y + c.r));
    }

    /// Make room for everything in `other`.
    pub fn join(&mut self, other: Bounds) {
        if other.min.x.is_finite() {
            self.min = spot(self.min.x.min(other.min.x), self.min.y.min(other.min.y));
            self.max = spot(self.max.x.max(other.max.x), self.max.y.max(other.max.y));
        }
    }
}

/// A drawing in the making.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// Shapes, back to front.
    pub shapes: Vec<Shape>,
    /// Room taken.
    pub bounds: Bounds,
}

impl Default for Paper {
    fn default() -> Paper {
        Paper { shapes: Vec::new(), bounds: Bounds::EMPTY }
    }
}

impl Paper {
    /// Add a shape.
    pub fn draw(&mut self, ink: Ink, path: String) {
        if !path.is_empty() {
            self.shapes.push(Shape { ink, path, width: None, whose: 0 });
        }
    }

    /// Add a line of a given width.
    pub fn stroke(&mut self, ink: Ink, path: String, width: f64) {
        self.shapes.push(Shape { ink, path, width: Some(width), whose: 0 });
    }

    /// Make room for these circles.
    pub fn reach(&mut self, rounds: &[Round]) {
        rounds.iter().for_each(|r| self.bounds.include(*r));
    }

    /// The same drawing as one part of a body: a moving figure's parts may change places.
    pub fn of(mut self, whose: usize) -> Paper {
        self.shapes.iter_mut().for_each(|shape| shape.whose = whose);
        self
    }

    /// The same drawing as one pale shape, without the halos that part its pieces.
    pub fn ghost(self) -> Paper {
        let shapes = self
            .shapes
            .into_iter()
            .filter(|shape| !matches!(shape.ink, Ink::Halo | Ink::Sole | Ink::Eye));
        let pale = |shape| Shape { ink: Ink::Ghost, ..shape };
        Paper { shapes: shapes.map(pale).collect(), bounds: self.bounds }
    }

    /// Put everything of `other` on top.
    pub fn lay(&mut self, other: Paper) {
        self.bounds.join(other.bounds);
        self.shapes.extend(other.shapes);
    }

    /// The shapes, neighbours with the same look as one.
    pub fn merged(&self) -> Vec<Shape> {
        let mut merged: Vec<Shape> = Vec::new();
        for shape in &self.shapes {
            match merged.last_mut() {
                Some(last) if last.looks_like(shape) => last.path.push_str(&shape.path),
                _ => merged.push(shape.clone()),
            }
        }
        merged
    }

    /// SVG elements; neighbours with the same look share one path.
    pub fn svg(&self) -> String {
        let width = |shape: &Shape| {
            shape.width.map_or(String::new(), |w| format!(" stroke-width=\"{}\"", num(w)))
        };
        let element = |shape: &Shape| {
            let class = shape.ink.class();
            format!("<path class=\"{class}\"{} d=\"{}\"/>", width(shape), shape.path)
        };
        self.merged().iter().map(element).collect()
    }
}
