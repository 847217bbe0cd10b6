//! The end fittings at true size: their seats, and their axes to where the hose begins. How thick they
//! are nobody has measured: dashed, and as thick as the hose's bore at most.

use glam::{DVec2, DVec3};

use super::body::{Part, STEEP};
use super::plane::Facing;
use crate::drawing::{Dash, Item, Shade, Stroke, knee};
use crate::engine::EndSolution;

/// From the seat to the hose exit.
pub(super) fn axis(end: &EndSolution) -> Vec<DVec3> {
    knee(&end.frame, end.end.along_mm, end.end.across_mm, end.end.angle_deg)
}

pub(super) fn fitting(end: &EndSolution, hose_half_mm: f64, facing: &Facing) -> Part {
    const THINNER: f64 = 0.7;
    let points = axis(end);
    let nearness =
        points.iter().map(|p| facing.nearness(*p)).sum::<f64>() / points.len().max(1) as f64;
    let flat: Vec<DVec2> = points.iter().map(|p| facing.flat(*p)).collect();
    let half = THINNER * hose_half_mm;
    let body = Stroke::dashed(Shade::Ink, 0.25, Dash::Dashed);
    let sides = [half, -half].map(|offset| beside(&flat, offset)).to_vec();
    let inside = vec![Item::line(flat.clone(), Stroke::obstacle(Shade::Paper, 2.0 * half))];
    let mut edges = vec![
        Item::Path { lines: sides, is_closed: false, fill: None, stroke: Some(body) },
        Item::line(flat.clone(), Stroke::dashed(Shade::Ink, 0.25, Dash::DashDot)),
    ];
    edges.extend(seat(end, hose_half_mm, facing));
    Part { nearness, inside, edges }
}

/// The seat: a heavy bar across the port, and a ring about its middle.
fn seat(end: &EndSolution, hose_half_mm: f64, facing: &Facing) -> Vec<Item> {
    const RING_MM: f64 = 1.5;
    let at = facing.flat(end.frame.seat);
    let toward = facing.flat(end.frame.toward);
    let stroke = Stroke::obstacle(Shade::Ink, 0.8);
    let ring = |radius_mm, stroke| Item::Circle {
        at,
        radius_mm,
        fill: Some(Shade::Paper),
        stroke: Some(stroke),
    };
    let middle = ring(RING_MM, Stroke::obstacle(Shade::Ink, 0.4));
    if toward.length() < STEEP {
        return vec![ring(hose_half_mm + 2.0, stroke), middle];
    }
    let across = toward.normalize_or_zero().perp() * (hose_half_mm + 2.0);
    vec![Item::line(vec![at - across, at + across], stroke), middle]
}

/// A line beside another, its corners mitred.
fn beside(line: &[DVec2], offset: f64) -> Vec<DVec2> {
    let normals: Vec<DVec2> =
        line.windows(2).map(|pair| (pair[1] - pair[0]).normalize_or_zero().perp()).collect();
    let count = line.len();
    (0..count)
        .map(|i| {
            let before = normals.get(i.wrapping_sub(1)).copied();
            let after = normals.get(i).copied();
            let (one, other) = match (before, after) {
                (Some(before), Some(after)) => (before, after),
                (Some(only), None) | (None, Some(only)) => (only, only),
                (None, None) => (DVec2::ZERO, DVec2::ZERO),
            };
            // Of a fold right back on itself there is no corner.
            let mitre = (1.0 + one.dot(other)).max(0.2);
            line[i] + (one + other) / mitre * offset
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_beside_a_right_angle_keeps_its_distance() {
        let line = [DVec2::ZERO, DVec2::new(10.0, 0.0), DVec2::new(10.0, 10.0)];
        let beside = beside(&line, 2.0);
        let wanted = [DVec2::new(0.0, 2.0), DVec2::new(8.0, 2.0), DVec2::new(8.0, 10.0)];
        assert!(beside.iter().zip(wanted).all(|(p, q)| p.distance(q) < 1e-9), "{beside:?}");
    }
}
