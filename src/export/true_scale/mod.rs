//! One view of one routing in true scale, for a CAD program, a plotter or a cutter: plain lines in
//! layers by kind.
//!
//! Coordinates are those of the bay, millimetres, across and up as [`View::flat`] has them. Circular
//! arcs that lie in the plane of the view stay arcs; other curves are chords within
//! [`ACCURACY_MM`].

mod chain;
mod dxf;
mod hose;
mod layer;
mod obstacles;
mod sides;
mod svg;
mod words;

use std::path::Path;

use glam::DVec2;

use crate::report::answer::Answer;

use crate::drawing::{Anchor, Rect, View};
use chain::Chain;

pub use layer::Layer;

/// How far a chord may stray from its curve.
pub const ACCURACY_MM: f64 = 0.05;

/// A finished drawing of a view.
#[derive(Debug, Clone, PartialEq)]
pub struct ViewDrawing {
    title: String,
    /// Layer by layer, in the order of [`Layer::ALL`].
    shapes: Vec<(Layer, Shape)>,
    /// Around everything, words included.
    bounds: Rect,
    pen: Pen,
}

/// One shape, Y up.
#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Chain(Chain),
    Circle {
        at: DVec2,
        radius: f64,
    },
    /// One line of words; `at` is on the base line.
    Words {
        at: DVec2,
        text: String,
        height: f64,
        anchor: Anchor,
    },
}

/// Sizes of what has no size of its own, by the size of the whole: a large drawing is looked at from
/// farther away.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Pen {
    /// Height of words, mm.
    words: f64,
    /// The thinnest line, mm.
    line: f64,
}

impl Pen {
    fn of(bounds: Rect) -> Self {
        let greatest = bounds.size().max_element();
        Self { words: (greatest / 110.0).max(2.5), line: (greatest / 2500.0).max(0.18) }
    }
}

impl ViewDrawing {
    /// The drawing of a routing as it is seen in `view`.
    pub fn new(answer: &Answer, view: View) -> Self {
        let mut shapes = obstacles::obstacles(answer.bay(), view);
        shapes.extend(hose::hoses(answer, view));
        let pen = Pen::of(bounds(&shapes));
        shapes.extend(hose::ports(answer.bay(), view, pen));
        shapes.extend(words::words(answer, view, &shapes, pen));
        let place = |layer: Layer| Layer::ALL.iter().position(|other| *other == layer);
        shapes.sort_by_key(|(layer, _)| place(*layer));
        let title = words::title(answer, view);
        Self { title, bounds: bounds(&shapes), shapes, pen }
    }

    fn of_layer(&self, layer: Layer) -> impl Iterator<Item = &Shape> {
        self.shapes.iter().filter(move |(other, _)| *other == layer).map(|(_, shape)| shape)
    }
}

/// The box around shapes; a small one about the origin where there is none.
fn bounds(shapes: &[(Layer, Shape)]) -> Rect {
    let all = Rect::of(shapes.iter().flat_map(|(_, shape)| shape.corners()));
    if all.min.is_finite() && all.max.is_finite() {
        all
    } else {
        Rect { min: DVec2::splat(-50.0), max: DVec2::splat(50.0) }
    }
}

impl Shape {
    fn line(a: DVec2, b: DVec2) -> Self {
        Self::Chain(Chain::straight([a, b], false))
    }

    /// Points that span its box.
    fn corners(&self) -> Vec<DVec2> {
        match self {
            Self::Chain(chain) => chain.flattened(),
            Self::Circle { at, radius } => vec![*at - *radius, *at + *radius],
            Self::Words { at, text, height, anchor } => {
                let width = crate::drawing::text_width_mm(text, *height);
                let left = match anchor {
                    Anchor::Start => 0.0,
                    Anchor::Middle => -width / 2.0,
                    Anchor::End => -width,
                };
                let low = *at + DVec2::new(left, -0.3 * height);
                vec![low, low + DVec2::new(width, 1.3 * height)]
            }
        }
    }
}

/// A format that a drawing of a view can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ViewFormat {
    /// DXF R12, text; 1 unit = 1 mm.
    Dxf,
    /// SVG 1.1, sized in millimetres.
    Svg,
}

/// A file name whose ending says no format of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the name must end in .dxf or .svg, to say the format")]
pub struct ViewFormatError;

impl ViewFormat {
    /// The format that the ending of a file name says, in either case.
    ///
    /// # Errors
    /// [`ViewFormatError`] where it says none that is written.
    pub fn of(path: &Path) -> Result<Self, ViewFormatError> {
        let extension = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
        match extension.as_str() {
            "dxf" => Ok(Self::Dxf),
            "svg" => Ok(Self::Svg),
            _ => Err(ViewFormatError),
        }
    }

    /// The drawing in this format.
    pub fn write(self, drawing: &ViewDrawing) -> Vec<u8> {
        match self {
            Self::Dxf => dxf::dxf(drawing),
            Self::Svg => svg::svg(drawing),
        }
        .into_bytes()
    }
}
