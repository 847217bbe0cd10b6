//! Hoses, what holds them, and the seats.

use glam::DVec2;

use crate::drawing::{View, around, knee};
use crate::engine::{EndSolution, RunSolution};
use crate::geom::Piece;
use crate::model::Bay;
use crate::report::answer::Answer;

use super::chain::{Chain, Vertex};
use super::sides::{flat_piece, sides};
use super::{Layer, Pen, Shape};

/// How far a clamp is drawn out from the hose; a mark, not a size.
const CLAMP_OUT_MM: f64 = 3.0;

/// All hoses of the routing. A centre line is one shape, always.
pub(super) fn hoses(answer: &Answer, view: View) -> Vec<(Layer, Shape)> {
    let mut shapes = Vec::new();
    for (place, run) in answer.solution.runs.iter().enumerate() {
        let Ok(run) = run else { continue };
        let pieces: Vec<Piece> = run.centre_line.pieces().map(|(_, piece)| piece).collect();
        shapes.push((Layer::Hoses, Shape::Chain(centre(&pieces, view))));
        let outside = run.hose.outside_mm / 2.0;
        shapes.extend(sides(&pieces, outside, view).into_iter().map(|s| (Layer::HoseSides, s)));
        shapes.extend([&run.from, &run.to].map(|end| (Layer::Ends, fitting(end, view))));
        shapes.extend(clamps(run, view).map(|shape| (Layer::Clamps, shape)));
        if let Some(lay) = answer.solution.lay_of(place)
            && lay.installed.is_whole()
        {
            let pieces: Vec<Piece> = lay.installed.pieces.iter().map(|(_, piece)| *piece).collect();
            shapes.push((Layer::Installed, Shape::Chain(centre(&pieces, view))));
        }
    }
    shapes
}

/// The pieces laid flat, joined.
fn centre(pieces: &[Piece], view: View) -> Chain {
    let mut chain = Chain::default();
    for piece in pieces {
        chain.push(&flat_piece(piece, view));
    }
    chain
}

fn fitting(end: &EndSolution, view: View) -> Shape {
    let points = knee(&end.frame, end.end.along_mm, end.end.across_mm, end.end.angle_deg);
    let vertices = points.iter().map(|p| Vertex::plain(view.flat(*p))).collect();
    Shape::Chain(Chain { vertices, is_closed: false })
}

/// As long as a clamp grips the hose; seen from its end a square.
fn clamps(run: &RunSolution, view: View) -> impl Iterator<Item = Shape> + '_ {
    let across = run.hose.outside_mm / 2.0 + CLAMP_OUT_MM;
    run.clamps.iter().map(move |clamp| {
        let flat = view.flat(clamp.along);
        let foreshortened = flat.length().min(1.0);
        // Its end is a disc, which is as wide as it is tilted.
        let tilted = (1.0 - foreshortened * foreshortened).sqrt();
        let half = clamp.half_grip_mm * foreshortened + across * tilted;
        Shape::Chain(Chain::straight(around(view.flat(clamp.point), flat, half, across), true))
    })
}

/// Every seat of the bay: a circle about it, and a tick the way a straight end's hose leaves.
pub(super) fn ports(bay: &Bay, view: View, pen: Pen) -> Vec<(Layer, Shape)> {
    let radius = pen.words / 2.0;
    let mut shapes = Vec::new();
    for port in &bay.ports {
        let at = view.flat(port.at);
        shapes.push((Layer::Ports, Shape::Circle { at, radius }));
        let toward = view.flat(crate::geom::unit_or_x(port.toward));
        if toward != DVec2::ZERO {
            shapes.push((Layer::Ports, Shape::line(at, at + toward * 2.0 * radius)));
        }
    }
    shapes
}
