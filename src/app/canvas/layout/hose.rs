//! A hose in a view: cut into bands so that where two hoses cross, the one nearer the viewer lies on
//! top, piece by piece.

use glam::{DVec2, DVec3};

use super::super::scene::HoseMark;
use super::Placing;

/// A piece of a hose on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Place of the hose in the scene.
    pub hose: usize,
    /// What piece of it.
    pub kind: BandKind,
    /// Its middle line; at least two points.
    pub points: Vec<DVec2>,
    /// Where these points are along the drawn centre line, mm. Before 0 and past its length in the
    /// fittings.
    pub along_mm: Vec<f64>,
    /// Half its width.
    pub half: f64,
    /// How near the viewer, mm.
    pub depth: f64,
    /// Length of the hose's middle line on the screen before this band, for the lay line's dashes.
    pub before: f64,
    /// Whether it starts round, at a corner that no bend softens.
    pub round_start: bool,
}

/// What a band shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BandKind {
    /// Hose.
    Hose,
    /// Hose bent tighter than it may be.
    Tight,
    /// The socket about the hose.
    Socket,
    /// The fitting between seat and hose.
    Fitting,
}

/// A hose as one line.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseLine {
    /// The middle of its centre line.
    pub middle: DVec2,
    /// Half its width.
    pub half: f64,
}

/// Drawn arcs stray from the true ones by no more than this, points.
const ACCURACY: f64 = 0.15;
/// A socket is drawn a little thicker than its hose (its outside is not in the tables), and the neck
/// of a fitting thinner: these proportions are for the eye only.
const SOCKET_TO_HOSE: f64 = 1.2;
const NECK_TO_HOSE: f64 = 0.55;

pub(super) fn lay_out(
    index: usize,
    hose: &HoseMark,
    place: &Placing,
    bands: &mut Vec<Band>,
) -> HoseLine {
    let half = place.length(hose.half_mm).max(1.25);
    let length = hose.line.length();
    let [a, b] = &hose.ends;
    bands.push(fitting(index, &a.fitting, false, half, place, length));
    bands.push(fitting(index, &b.fitting, true, half, place, length));
    let sockets = (a.socket_mm.min(length), (length - b.socket_mm).max(0.0));
    let first = bands.len();
    let mut before = 0.0;
    for pair in cuts(hose, sockets).windows(2) {
        let [from, to] = [pair[0], pair[1]];
        let middle = f64::midpoint(from, to);
        let kind = if middle < sockets.0 || middle > sockets.1 {
            BandKind::Socket
        } else if hose.tight.iter().any(|(s, e)| middle > *s && middle < *e) {
            BandKind::Tight
        } else {
            BandKind::Hose
        };
        let mut band = body(index, hose, (from, to), place);
        band.kind = kind;
        band.half = if kind == BandKind::Socket { half * SOCKET_TO_HOSE } else { half };
        band.before = before;
        before += path_length(&band.points);
        band.round_start = bands.get(first..).and_then(<[Band]>::last).is_some_and(|last| {
            let end = last.points.windows(2).next_back().map(|w| w[1] - w[0]);
            let start = band.points.windows(2).next().map(|w| w[1] - w[0]);
            let bends = |a: DVec2, b: DVec2| a.angle_to(b).abs() > 0.25;
            matches!((end, start), (Some(a), Some(b)) if bends(a, b))
        });
        bands.push(band);
    }
    HoseLine { middle: place.point(hose.line.point_at(length / 2.0)), half }
}

/// Where the hose is cut into bands, mm along it.
fn cuts(hose: &HoseMark, sockets: (f64, f64)) -> Vec<f64> {
    let length = hose.line.length();
    let mut cuts = vec![0.0, sockets.0, sockets.1, length];
    for (start, piece) in hose.line.pieces() {
        cuts.push(start);
        // A long straight that runs towards the viewer crosses others at different depths.
        let parts = (piece.length() / 120.0).ceil().clamp(1.0, 200.0) as u32;
        cuts.extend((1..parts).map(|k| start + piece.length() * f64::from(k) / f64::from(parts)));
    }
    for (from, to) in &hose.tight {
        // Nothing is cut inside a tight spot: it is one band.
        cuts.retain(|cut| cut <= from || cut >= to);
        cuts.extend([*from, *to]);
    }
    cuts.retain(|cut| (0.0..=length).contains(cut));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    cuts
}

fn body(index: usize, hose: &HoseMark, (from, to): (f64, f64), place: &Placing) -> Band {
    let mut along_mm = vec![from];
    let tolerance = ACCURACY / place.camera.points_per_mm;
    for (start, piece) in hose.line.pieces() {
        let end = start + piece.length();
        if end <= from || start >= to {
            continue;
        }
        if start > from {
            along_mm.push(start);
        }
        let curvature = piece.curvature();
        if curvature > 0.0 {
            let (lo, hi) = (start.max(from), end.min(to));
            // The sagitta of a chord of length c on a circle of curvature k is about k c² / 8.
            let chord = (8.0 * tolerance / curvature).sqrt().min(0.3 / curvature);
            let count = ((hi - lo) / chord).ceil().clamp(1.0, 400.0) as u32;
            let step = (hi - lo) / f64::from(count);
            along_mm.extend((1..count).map(|k| lo + step * f64::from(k)));
        }
    }
    along_mm.push(to);
    let space: Vec<DVec3> = along_mm.iter().map(|s| hose.line.point_at(*s)).collect();
    band(index, BandKind::Hose, &space, along_mm, place)
}

fn fitting(
    index: usize,
    path: &[DVec3],
    at_b: bool,
    half: f64,
    place: &Placing,
    length: f64,
) -> Band {
    let beyond = if at_b { length } else { 0.0 };
    let mut band = band(index, BandKind::Fitting, path, vec![beyond; path.len()], place);
    band.half = (half * NECK_TO_HOSE).max(1.0);
    band
}

fn band(hose: usize, kind: BandKind, space: &[DVec3], along_mm: Vec<f64>, place: &Placing) -> Band {
    let depth = space.iter().map(|p| place.view.depth(*p)).sum::<f64>() / space.len().max(1) as f64;
    let points = space.iter().map(|p| place.point(*p)).collect();
    Band { hose, kind, points, along_mm, half: 1.0, depth, before: 0.0, round_start: false }
}

fn path_length(points: &[DVec2]) -> f64 {
    points.windows(2).map(|w| w[0].distance(w[1])).sum()
}

impl Band {
    /// How far a point is from the middle line, and where along the hose the nearest place is.
    pub(super) fn nearest(&self, at: DVec2) -> Option<(f64, f64)> {
        let segments = self.points.windows(2).zip(self.along_mm.windows(2));
        let found = segments.map(|(p, mm)| {
            let (along, length) = (p[1] - p[0], p[0].distance(p[1]));
            let t = if length > 0.0 {
                ((at - p[0]).dot(along) / (length * length)).clamp(0.0, 1.0)
            } else {
                0.0
            };
            (at.distance(p[0] + t * along), mm[0] + t * (mm[1] - mm[0]))
        });
        found.min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// Its points at every place where its middle line turns sharply on the screen: a bend seen from
    /// its edge. A round dot belongs there.
    pub fn hairpins(&self) -> impl Iterator<Item = DVec2> + '_ {
        let turns = self.points.windows(3).filter_map(|w| {
            let (a, b) = (w[1] - w[0], w[2] - w[1]);
            (a.angle_to(b).abs() > 0.6).then_some(w[1])
        });
        self.round_start.then_some(self.points[0]).into_iter().chain(turns)
    }

    /// The dashes of the lay line in this band, so that they run on from band to band.
    pub fn dashes(&self, on: f64, off: f64) -> Vec<[DVec2; 2]> {
        let period = on + off;
        let mut found = Vec::new();
        let mut at = self.before;
        for w in self.points.windows(2) {
            let length = w[0].distance(w[1]);
            let point = |s: f64| w[0].lerp(w[1], ((s - at) / length).clamp(0.0, 1.0));
            let mut dash = (at / period).floor() * period;
            while length > 0.0 && dash < at + length {
                let (from, to) = (dash.max(at), (dash + on).min(at + length));
                if to > from {
                    found.push([point(from), point(to)]);
                }
                dash += period;
            }
            at += length;
        }
        found
    }
}
