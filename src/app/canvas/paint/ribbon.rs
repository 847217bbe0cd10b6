//! A line of some width as a strip of triangles whose colours change across it: what lies about it,
//! its edge, its body, each soft over one pixel. One strip paints a hose at once, sharp at every
//! scale.

use std::sync::LazyLock;

use eframe::egui::{Color32, Mesh};
use glam::DVec2;

use super::at;

/// Colours across a line: from its middle outwards, each with the distance from the middle to where
/// it stands, points; within the first it is as there.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Profile {
    stops: Vec<(f64, Color32)>,
}

impl Profile {
    /// A line of one colour, soft at its edge over a pixel.
    pub(super) fn plain(half: f64, colour: Color32, pixel: f64) -> Self {
        Self::layered(&[(half, colour)], pixel)
    }

    /// A narrow line of layers from the middle outwards, each to its half width, and what lies about it:
    /// one colour runs into the next, and what lies about it fades out. Half as many places as with
    /// borders of their own.
    pub(super) fn thin(
        layers: &[(f64, Color32)],
        (about, halo): (f64, Color32),
        pixel: f64,
    ) -> Self {
        let soft = pixel / 2.0;
        let mut stops = Vec::with_capacity(layers.len() + 2);
        for (half, colour) in layers {
            // A core narrower than a pixel is one line.
            let is_line = stops.is_empty() && half - soft < soft;
            stops.push((if is_line { 0.0 } else { half - soft }, *colour));
        }
        let outside = layers.last().map_or(0.0, |(half, _)| *half);
        stops.extend([(outside + soft, halo), (about, Color32::TRANSPARENT)]);
        Self { stops }
    }

    /// Layers from the middle outwards, each to its half width; past the last there is nothing.
    pub(super) fn layered(layers: &[(f64, Color32)], pixel: f64) -> Self {
        let soft = pixel / 2.0;
        let mut stops = Vec::with_capacity(2 * layers.len() + 1);
        let mut inside = 0.0_f64;
        for (half, colour) in layers {
            if inside > 0.0 {
                stops.push((inside, *colour));
            }
            stops.push(((half - soft).max(inside), *colour));
            inside = half + soft;
        }
        stops.push((inside, Color32::TRANSPARENT));
        Self { stops }
    }
}

/// Where the line turns by more than this it is a point, not a curve: it is painted round there.
const SHARP_RAD: f64 = 0.6;
/// Strips reach a little past their ends, so that no seam shows between them.
const OVERLAP: f64 = 0.3;

/// Paints along a line.
pub(super) fn ribbon(mesh: &mut Mesh, points: &[DVec2], profile: &Profile) {
    let mut path: Vec<DVec2> = Vec::with_capacity(points.len());
    for p in points {
        if path.last().is_none_or(|last| last.distance_squared(*p) > 1e-8) {
            path.push(*p);
        }
    }
    let mut start = 0;
    for i in 1..path.len().saturating_sub(1) {
        if (path[i] - path[i - 1]).angle_to(path[i + 1] - path[i]).abs() > SHARP_RAD {
            dot(mesh, path[i], profile);
            strip(mesh, &path[start..=i], profile);
            start = i;
        }
    }
    strip(mesh, &path[start.min(path.len())..], profile);
}

fn strip(mesh: &mut Mesh, path: &[DVec2], profile: &Profile) {
    let n = path.len();
    if n < 2 {
        return;
    }
    // A colour in the very middle stands there once.
    let is_in_the_middle = profile.stops.first().is_some_and(|(off, _)| *off <= 0.0);
    let other_side = profile.stops.get(usize::from(is_in_the_middle)..).unwrap_or_default();
    let across = (profile.stops.len() + other_side.len()) as u32;
    let first = mesh.vertices.len() as u32;
    mesh.vertices.reserve(n * across as usize);
    mesh.indices.reserve((n - 1) * 6 * (across as usize - 1));
    for i in 0..n {
        let into = (path[i] - path[i.saturating_sub(1)]).normalize_or_zero();
        let out = (path[(i + 1).min(n - 1)] - path[i]).normalize_or_zero();
        let along = (into + out).normalize_or(DVec2::X);
        // Mitred: as wide across the turn as beside it.
        let wider = along.dot(if into == DVec2::ZERO { out } else { into }).max(0.5).recip();
        let normal = along.perp() * wider;
        let end = match i {
            0 => path[i] - along * OVERLAP,
            _ if i == n - 1 => path[i] + along * OVERLAP,
            _ => path[i],
        };
        for (off, colour) in profile.stops.iter().rev() {
            mesh.colored_vertex(at(end - normal * *off), *colour);
        }
        for (off, colour) in other_side {
            mesh.colored_vertex(at(end + normal * *off), *colour);
        }
    }
    for i in 0..n as u32 - 1 {
        for k in 0..across - 1 {
            let a = first + i * across + k;
            mesh.add_triangle(a, a + 1, a + across);
            mesh.add_triangle(a + 1, a + across + 1, a + across);
        }
    }
}

/// Directions round a point, once for all: there may be hundreds of dots.
static ROUND: LazyLock<[Vec<DVec2>; 3]> = LazyLock::new(|| {
    [10_u32, 12, 20].map(|count| {
        let turn = |k| std::f64::consts::TAU * f64::from(k) / f64::from(count);
        (0..count).map(|k| DVec2::from_angle(turn(k))).collect()
    })
});

/// As many directions as a circle of so many points needs to look round.
fn round(radius: f64) -> &'static [DVec2] {
    &ROUND[if radius < 4.5 { 0 } else { usize::from(radius >= 10.0) + 1 }]
}

/// A round place with the colours of the line.
pub(super) fn dot(mesh: &mut Mesh, middle: DVec2, profile: &Profile) {
    let Some((outside, _)) = profile.stops.last() else { return };
    let directions = round(*outside);
    let first = mesh.vertices.len() as u32;
    let (rings, count) = (profile.stops.len() as u32, directions.len() as u32);
    mesh.vertices.reserve((rings * count) as usize);
    mesh.indices.reserve((6 * rings * count) as usize);
    for d in directions {
        for (off, colour) in &profile.stops {
            mesh.colored_vertex(at(middle + *d * *off), *colour);
        }
    }
    for k in 0..count {
        let (a, b) = (first + k * rings, first + (k + 1) % count * rings);
        // The innermost ring is filled.
        if k > 0 {
            mesh.add_triangle(first, a, b);
        }
        for ring in 0..rings - 1 {
            mesh.add_triangle(a + ring, b + ring, a + ring + 1);
            mesh.add_triangle(b + ring, b + ring + 1, a + ring + 1);
        }
    }
}

/// A convex polygon, soft at its edge over a pixel.
pub(super) fn polygon(mesh: &mut Mesh, corners: &[DVec2], colour: Color32, pixel: f64) {
    let n = corners.len();
    if n < 3 {
        return;
    }
    let middle = corners.iter().sum::<DVec2>() / n as f64;
    let first = mesh.vertices.len() as u32;
    for corner in corners {
        let out = (*corner - middle).normalize_or_zero() * pixel / 2.0;
        mesh.colored_vertex(at(*corner - out), colour);
        mesh.colored_vertex(at(*corner + out), Color32::TRANSPARENT);
    }
    let n = n as u32;
    for k in 0..n {
        let (a, b) = (first + 2 * k, first + 2 * ((k + 1) % n));
        if k > 0 && k + 1 < n {
            mesh.add_triangle(first, a, b);
        }
        mesh.add_triangle(a, b, a + 1);
        mesh.add_triangle(b, b + 1, a + 1);
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    const INK: Color32 = Color32::BLACK;

    fn area_of(mesh: &Mesh, colour: Color32) -> f64 {
        let triangles = mesh
            .indices
            .chunks_exact(3)
            .map(|t| t.iter().map(|i| mesh.vertices[*i as usize]).collect::<Vec<_>>());
        let own = triangles.filter(|t| t.iter().all(|v| v.color == colour));
        own.map(|t| {
            let p = |i: usize| dvec2(f64::from(t[i].pos.x), f64::from(t[i].pos.y));
            (p(1) - p(0)).perp_dot(p(2) - p(0)).abs() / 2.0
        })
        .sum()
    }

    #[test]
    fn a_straight_line_is_as_wide_as_it_says() {
        let mut mesh = Mesh::default();
        let profile = Profile::plain(5.0, INK, 1.0);
        ribbon(&mut mesh, &[DVec2::ZERO, dvec2(100.0, 0.0)], &profile);
        // Full within half a pixel of the edge, and nothing half a pixel past it.
        assert!((area_of(&mesh, INK) - 9.0 * (100.0 + 2.0 * OVERLAP)).abs() < 1e-3);
        let most = mesh.vertices.iter().map(|v| v.pos.y.abs()).fold(0.0, f32::max);
        assert!((most - 5.5).abs() < 1e-6);
        assert!(mesh.is_valid());
    }

    #[test]
    fn a_gentle_bend_keeps_the_width_and_a_sharp_one_is_round() {
        let round = |k: u32| 50.0 * DVec2::from_angle(f64::from(k) * 0.1);
        let points: Vec<DVec2> = (0..=20).map(round).collect();
        let mut mesh = Mesh::default();
        ribbon(&mut mesh, &points, &Profile::plain(4.0, INK, 1e-9));
        let exact = 2.0 * 50.0 * 8.0;
        assert!((area_of(&mesh, INK) / exact - 1.0).abs() < 0.02);
        for v in &mesh.vertices {
            let r = dvec2(f64::from(v.pos.x), f64::from(v.pos.y)).length();
            assert!(r > 45.9 && r < 54.2, "{r}");
        }
        let mut sharp = Mesh::default();
        ribbon(
            &mut sharp,
            &[DVec2::ZERO, dvec2(30.0, 0.0), DVec2::ZERO],
            &Profile::plain(4.0, INK, 1.0),
        );
        let most = sharp.vertices.iter().map(|v| v.pos.x).fold(0.0, f32::max);
        assert!(most < 34.6, "no spike: {most}");
    }

    #[test]
    fn nothing_comes_of_less_than_two_places() {
        let mut mesh = Mesh::default();
        let profile = Profile::layered(&[(2.0, INK), (3.0, Color32::WHITE)], 1.0);
        ribbon(&mut mesh, &[], &profile);
        ribbon(&mut mesh, &[DVec2::ONE, DVec2::ONE], &profile);
        assert!(mesh.is_empty());
    }
}
