//! Hoses at their true thickness, band by band from the far side to the near one, each with a little
//! paper about it so that what passes over is told from what passes under.

use eframe::egui::{Color32, Mesh};
use glam::DVec2;

use super::super::layout::{Band, BandKind, STEPS};
use super::ribbon::{Profile, ribbon};
use crate::app::theme::Palette;

/// Width of the paper about a hose, points.
const HALO: f64 = 2.0;
/// Width of the light about the selected hose, points.
const GLOW: f64 = 4.0;

/// Half the width of a hose from which its lay line is to be seen, points.
const LAY_LINE_FROM: f64 = 4.0;

/// Half the width up to which a hose is painted with fewer colours across it, points.
const THIN: f64 = 4.0;

/// How far hoses beside the selected one go back into the paper.
pub(super) const FAINT: f32 = 0.5;
/// Ports and clamps beside the selected hose are as faint as what lies so many steps behind.
pub(super) const BESIDE: u8 = STEPS - 1;
/// How far what lies farthest behind goes back into it.
const FARTHEST: f32 = 0.6;

/// How far what lies so many steps behind goes back into the paper.
pub(super) fn faintness(step: u8) -> f32 {
    FARTHEST * f32::from(step) / f32::from(STEPS)
}

/// How a band stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Stand {
    /// As it is, so many steps behind.
    Plain(u8),
    /// Beside the selected hose.
    Faint(u8),
    /// Under the pointer.
    Lit,
}

/// One band, painted.
pub(super) fn band(band: &Band, stand: Stand, colours: &Palette, pixel: f64) -> Mesh {
    let (edge, fill) = match band.kind {
        BandKind::Hose => (colours.hose_edge, colours.hose),
        BandKind::Tight => (colours.fail, colours.fail_faint),
        BandKind::Socket => (colours.socket, colours.socket),
        BandKind::Fitting => (colours.fitting, colours.fitting),
    };
    let faint = |colour: Color32| match stand {
        Stand::Faint(step) => {
            colour.lerp_to_gamma(colours.sheet, FAINT + (1.0 - FAINT) * 0.6 * faintness(step))
        }
        Stand::Plain(step) => colour.lerp_to_gamma(colours.sheet, faintness(step)),
        Stand::Lit => colour,
    };
    let (edge, fill) = (faint(edge), faint(fill));
    let halo = if stand == Stand::Lit { colours.accent } else { colours.sheet };
    let half = band.half;
    let group = half - (half * 0.45).min(1.25);
    let (about, has_core) = (half + HALO, half > 1.4 && fill != edge);
    let profile = match (half < THIN, has_core) {
        (true, true) => Profile::thin(&[(group, fill), (half, edge)], (about, halo), pixel),
        (true, false) => Profile::thin(&[(half, edge)], (about, halo), pixel),
        (false, true) => Profile::layered(&[(group, fill), (half, edge), (about, halo)], pixel),
        (false, false) => Profile::layered(&[(half, edge), (about, halo)], pixel),
    };
    let mut mesh = Mesh::default();
    if band.round_start {
        super::ribbon::dot(&mut mesh, band.points[0], &profile);
    }
    ribbon(&mut mesh, &band.points, &profile);
    match band.kind {
        BandKind::Hose if half > LAY_LINE_FROM => lay_line(&mut mesh, band, colours, pixel),
        BandKind::Tight if half > 2.0 => cross_hatch(&mut mesh, band, colours, pixel),
        _ => {}
    }
    mesh
}

/// The light under a band of the selected hose.
pub(super) fn glow(mesh: &mut Mesh, band: &Band, colours: &Palette, pixel: f64) {
    let ground: Color32 = colours.sheet.lerp_to_gamma(colours.accent, 0.25);
    ribbon(mesh, &band.points, &Profile::plain(band.half + GLOW, ground, pixel));
}

/// Long dash, short gap: the line printed along a hose that shows whether it is twisted.
fn lay_line(mesh: &mut Mesh, band: &Band, colours: &Palette, pixel: f64) {
    let profile = Profile::plain(0.5, colours.hose_edge.gamma_multiply(0.75), pixel);
    for ends in band.dashes(9.0, 4.0) {
        ribbon(mesh, &ends, &profile);
    }
}

/// Strokes across the hose, close together.
fn cross_hatch(mesh: &mut Mesh, band: &Band, colours: &Palette, pixel: f64) {
    let profile = Profile::plain(0.6, colours.fail, pixel);
    for [from, to] in band.dashes(1.5, 3.0) {
        let along = (to - from).normalize_or(DVec2::X);
        let reach = (along.perp() + 0.6 * along) * (band.half - 1.0);
        let middle = (from + to) / 2.0;
        ribbon(mesh, &[middle - reach, middle + reach], &profile);
    }
}
