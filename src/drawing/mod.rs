//! A drawing as plain shapes on paper: millimetres, x to the right, y down. What is drawn is
//! decided here; a format only writes the shapes in its own words.

use glam::DVec2;

mod bar;
mod dial;
mod hatch;
mod hose;
mod labels;
mod layout;
mod obstacles;
mod route;
mod routings;
mod strip;
mod view;
mod ways;

pub use view::View;

pub(crate) use bar::length_bar;
pub(crate) use dial::dial;
pub(crate) use hose::{around, knee};
pub(crate) use labels::{Label, Labels};
pub(crate) use obstacles::{circle, mesh_edges};
pub(crate) use route::route;
pub(crate) use routings::{Routed, legend, routings};
pub(crate) use strip::{StripBend, StripMark, strip};

/// A finished picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What it shows, for those who cannot see it.
    pub title: String,
    /// Width on paper, mm.
    pub width_mm: f64,
    /// Height on paper, mm.
    pub height_mm: f64,
    /// From back to front.
    pub items: Vec<Item>,
}

/// One shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Lines through points; closed ones may be filled (non-zero rule).
    Path {
        /// One or more lines.
        lines: Vec<Vec<DVec2>>,
        /// Whether each ends where it began.
        is_closed: bool,
        /// Filling.
        fill: Option<Shade>,
        /// Outline.
        stroke: Option<Stroke>,
    },
    /// A circle.
    Circle {
        /// Its middle.
        at: DVec2,
        /// Its radius, mm.
        radius_mm: f64,
        /// Filling.
        fill: Option<Shade>,
        /// Outline.
        stroke: Option<Stroke>,
    },
    /// One line of words.
    Text {
        /// On the base line: the start, middle or end, as `anchor` says.
        at: DVec2,
        /// The words.
        text: String,
        /// Height of the letters' group, mm.
        size_mm: f64,
        /// Which part of the words is at `at`.
        anchor: Anchor,
        /// Heavy letters.
        is_bold: bool,
        /// Its shade.
        shade: Shade,
    },
    /// Shapes of which only what is inside the rectangle is seen.
    Clipped {
        /// The rectangle.
        within: Rect,
        /// From back to front, in the drawing's own millimetres.
        items: Vec<Item>,
    },
}

impl Item {
    /// An open line.
    pub(super) fn line(points: Vec<DVec2>, stroke: Stroke) -> Self {
        Self::Path { lines: vec![points], is_closed: false, fill: None, stroke: Some(stroke) }
    }

    /// A closed shape.
    pub(super) fn shape(points: Vec<DVec2>, fill: Option<Shade>, stroke: Option<Stroke>) -> Self {
        Self::Path { lines: vec![points], is_closed: true, fill, stroke }
    }

    /// Plain words.
    pub(super) fn text(at: DVec2, text: impl Into<String>, size_mm: f64, anchor: Anchor) -> Self {
        Self::Text { at, text: text.into(), size_mm, anchor, is_bold: false, shade: Shade::Ink }
    }

    /// Heavy words.
    fn bold(at: DVec2, text: impl Into<String>, size_mm: f64, anchor: Anchor) -> Self {
        Self::Text { at, text: text.into(), size_mm, anchor, is_bold: true, shade: Shade::Ink }
    }

    /// Words that stand back.
    fn soft(at: DVec2, text: impl Into<String>, size_mm: f64, anchor: Anchor) -> Self {
        Self::Text { at, text: text.into(), size_mm, anchor, is_bold: false, shade: Shade::Soft }
    }
}

impl Item {
    /// The box around it; of words about, for the reader's face is not known here.
    pub(super) fn bounds(&self) -> Rect {
        match self {
            Self::Path { lines, stroke, .. } => {
                let half = stroke.map_or(0.0, |stroke| stroke.width_mm / 2.0);
                Rect::of(lines.iter().flatten().copied()).grown(half)
            }
            Self::Circle { at, radius_mm, .. } => Rect { min: *at, max: *at }.grown(*radius_mm),
            Self::Text { at, text, size_mm, anchor, is_bold, .. } => {
                let width = if *is_bold { bold_width_mm } else { text_width_mm };
                let size = DVec2::new(width(text, *size_mm), 1.24 * size_mm);
                let back = match anchor {
                    Anchor::Start => 0.0,
                    Anchor::Middle => size.x / 2.0,
                    Anchor::End => size.x,
                };
                Rect::from_size(*at - DVec2::new(back, *size_mm), size)
            }
            Self::Clipped { within, .. } => *within,
        }
    }

    /// Moves it.
    pub(super) fn shift(&mut self, by: DVec2) {
        match self {
            Self::Path { lines, .. } => lines.iter_mut().flatten().for_each(|point| *point += by),
            Self::Circle { at, .. } | Self::Text { at, .. } => *at += by,
            Self::Clipped { within, items } => {
                within.min += by;
                within.max += by;
                for item in items {
                    item.shift(by);
                }
            }
        }
    }
}

/// A line's look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Its shade.
    pub shade: Shade,
    /// Its width, mm.
    pub width_mm: f64,
    /// Its pattern.
    pub dash: Dash,
}

impl Stroke {
    pub(super) const fn obstacle(shade: Shade, width_mm: f64) -> Self {
        Self { shade, width_mm, dash: Dash::Obstacle }
    }

    pub(super) const fn dashed(shade: Shade, width_mm: f64, dash: Dash) -> Self {
        Self { shade, width_mm, dash }
    }
}

/// A line's pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Dash {
    Obstacle,
    Dashed,
    Dotted,
    DashDot,
}

/// What a shade stands for; the format knows its colour. All tell apart without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shade {
    /// Black.
    Ink,
    /// Words and lines that stand back.
    Soft,
    /// The thinnest lines.
    Hairline,
    /// White.
    Paper,
    /// The group of an obstacle.
    Obstacle,
    /// The group of a hose.
    Hose,
    /// The edge of a hose.
    HoseEdge,
    /// A socket.
    Socket,
    /// The slack.
    Accent,
    /// What must be fixed.
    Fail,
}

/// Which part of a line of words is at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Anchor {
    Start,
    Middle,
    End,
}

/// An upright rectangle on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left and top.
    pub min: DVec2,
    /// Right and bottom.
    pub max: DVec2,
}

impl Rect {
    /// The box around points; of none it is empty: its least corner is past its greatest.
    pub(super) fn of(points: impl IntoIterator<Item = DVec2>) -> Self {
        let nothing = Self { min: DVec2::INFINITY, max: DVec2::NEG_INFINITY };
        let with = |all: Self, p: DVec2| Self { min: all.min.min(p), max: all.max.max(p) };
        points.into_iter().fold(nothing, with)
    }

    fn from_size(min: DVec2, size: DVec2) -> Self {
        Self { min, max: min + size }
    }

    /// Width and height.
    pub fn size(self) -> DVec2 {
        self.max - self.min
    }

    fn overlaps(self, other: Self) -> bool {
        self.min.cmplt(other.max).all() && other.min.cmplt(self.max).all()
    }

    pub(super) fn contains(self, point: DVec2) -> bool {
        self.min.cmple(point).all() && point.cmple(self.max).all()
    }

    pub(super) fn grown(self, by: f64) -> Self {
        Self { min: self.min - by, max: self.max + by }
    }

    fn outline(self) -> Vec<DVec2> {
        let (a, b) = (self.min, self.max);
        vec![a, DVec2::new(b.x, a.y), b, DVec2::new(a.x, b.y)]
    }
}

/// Width of a letter against the size of the type, on the safe side for the usual sans-serif faces;
/// the reader's own face is not known here.
const LETTER_WIDTH: f64 = 0.6;

/// The same of heavy letters.
const BOLD_LETTER_WIDTH: f64 = 0.66;

/// About how wide heavy words come out, mm.
fn bold_width_mm(text: &str, size_mm: f64) -> f64 {
    text.chars().count() as f64 * BOLD_LETTER_WIDTH * size_mm
}

/// About how wide words come out, mm.
pub(super) fn text_width_mm(text: &str, size_mm: f64) -> f64 {
    text.chars().count() as f64 * LETTER_WIDTH * size_mm
}
