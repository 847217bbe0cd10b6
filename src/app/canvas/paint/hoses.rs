//! Hoses at their true thickness, band by band from the far side to the near one.

use eframe::egui::{Color32, Painter, Pos2, Shape, Stroke};
use glam::DVec2;

use super::super::layout::{Band, BandKind, ViewLayout};
use super::super::scene::Scene;
use super::{Emphasis, at};
use crate::app::canvas::thing::Thing;
use crate::app::theme::Palette;

pub(super) fn hoses(
    painter: &Painter,
    scene: &Scene,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let is = |band: &Band, run: Option<&str>| {
        run.is_some() && run == scene.hoses.get(band.hose).map(|hose| hose.run.as_str())
    };
    let hovered = match emphasis.thing {
        Some(Thing::Hose(run)) => Some(run.as_str()),
        _ => None,
    };
    for band in layout.bands.iter().filter(|band| is(band, emphasis.run)) {
        stroke(painter, band, band.half + 4.0, colours.accent.gamma_multiply(0.22), 0.0);
    }
    for band in &layout.bands {
        let halo = if is(band, hovered) { colours.accent } else { colours.sheet };
        paint_band(painter, band, halo, colours);
    }
}

fn paint_band(painter: &Painter, band: &Band, halo: Color32, colours: &Palette) {
    let (edge, fill) = match band.kind {
        BandKind::Hose => (colours.hose_edge, colours.hose),
        BandKind::Tight => (colours.fail, colours.fail_faint),
        BandKind::Socket => (colours.socket, colours.socket),
        BandKind::Fitting => (colours.fitting, colours.fitting),
    };
    stroke(painter, band, band.half + 1.5, halo, 0.0);
    stroke(painter, band, band.half, edge, 0.2);
    if band.half > 1.4 {
        stroke(painter, band, band.half - (band.half * 0.45).min(1.25), fill, 0.6);
    }
    match band.kind {
        BandKind::Hose if band.half > 2.5 => lay_line(painter, band, colours),
        BandKind::Tight if band.half > 2.0 => cross_hatch(painter, band, colours),
        _ => {}
    }
}

/// The band as a thick line, a little longer at both ends so that no seam shows.
fn stroke(painter: &Painter, band: &Band, half: f64, colour: Color32, longer: f64) {
    let mut points = band.points.clone();
    if longer > 0.0
        && let [first, second, ..] = points[..]
        && let [.., before, last] = points[..]
    {
        let n = points.len() - 1;
        points[0] = first - (second - first).normalize_or_zero() * longer;
        points[n] = last + (last - before).normalize_or_zero() * longer;
    }
    let path: Vec<Pos2> = points.iter().map(|p| at(*p)).collect();
    painter.add(Shape::line(path, Stroke::new(2.0 * half as f32, colour)));
    for dot in band.hairpins() {
        painter.circle_filled(at(dot), half as f32, colour);
    }
}

/// Long dash, short dash: the line printed along a hose that shows whether it is twisted.
fn lay_line(painter: &Painter, band: &Band, colours: &Palette) {
    let colour = colours.hose_edge.gamma_multiply(0.75);
    for ends in band.dashes(9.0, 4.0) {
        painter.line_segment(ends.map(at), Stroke::new(1.0, colour));
    }
}

/// Strokes across the hose, close together.
fn cross_hatch(painter: &Painter, band: &Band, colours: &Palette) {
    for [from, to] in band.dashes(1.5, 3.0) {
        let along = (to - from).normalize_or(DVec2::X);
        let reach = (along.perp() + 0.6 * along) * (band.half - 1.0);
        let middle = (from + to) / 2.0;
        let ends = [at(middle - reach), at(middle + reach)];
        painter.line_segment(ends, Stroke::new(1.2, colours.fail));
    }
}
