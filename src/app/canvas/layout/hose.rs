//! A hose in a view: cut into bands so that where two hoses cross, the one nearer the viewer lies on
//! top, piece by piece.

use super::room::Covered;
use glam::{DVec2, DVec3};
use kurbo::{CubicBez, ParamCurve as _, Point};

use super::super::camera::Area;
use super::super::scene::HoseMark;
use super::Placing;
use crate::geom::Piece;

/// A piece of a hose on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Place of the hose in the scene.
    pub hose: usize,
    /// Its place among the pieces of its hose.
    pub place: usize,
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
    /// The area about its middle line.
    pub about: Area,
    /// Where it is in the way of names, once that was asked for.
    pub(super) cells: Covered,
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
const ACCURACY: f64 = 0.25;
/// A band is no deeper than this, mm. Finer, and a large bay has more pieces than the eye tells apart.
const DEPTH_MM: f64 = 100.0;
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
    for pair in cuts(hose, sockets, place).windows(2) {
        let [from, to] = [pair[0], pair[1]];
        let middle = f64::midpoint(from, to);
        let kind = if middle < sockets.0 || middle > sockets.1 {
            BandKind::Socket
        } else if hose.tight.iter().any(|(s, e)| middle > *s && middle < *e) {
            BandKind::Tight
        } else {
            BandKind::Hose
        };
        let mut band = group(index, hose, (from, to), place);
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
    for (place, band) in bands.iter_mut().enumerate() {
        band.place = place;
        band.about = about(&band.points);
    }
    HoseLine { middle: place.point(hose.line.point_at(length / 2.0)), half }
}

/// Where the hose is cut into bands, mm along it.
fn cuts(hose: &HoseMark, sockets: (f64, f64), place: &Placing) -> Vec<f64> {
    let length = hose.line.length();
    let mut cuts = vec![0.0, sockets.0, sockets.1, length];
    for (start, piece) in hose.line.pieces() {
        cuts.push(start);
        // What runs towards the viewer crosses others at different depths.
        let [a, b] = [0.0, piece.length()].map(|s| place.view.depth(piece.point_at(s)));
        let parts = ((a - b).abs() / DEPTH_MM).ceil().clamp(1.0, 200.0) as u32;
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

fn group(index: usize, hose: &HoseMark, (from, to): (f64, f64), place: &Placing) -> Band {
    let mut band = Band { along_mm: vec![from], ..empty(index, BandKind::Hose) };
    let mut depths = 0.0;
    for (start, piece) in hose.line.pieces() {
        let (lo, hi) = (start.max(from), (start + piece.length()).min(to));
        if hi <= lo {
            continue;
        }
        if band.points.is_empty() {
            band.points.push(place.point(piece.point_at(lo - start)));
        }
        curve(&piece, (lo - start, hi - start), place, |at, s| {
            band.points.push(at);
            band.along_mm.push(start + s);
        });
        depths += (hi - lo) * place.view.depth(piece.point_at(f64::midpoint(lo, hi) - start));
    }
    band.depth = depths / (to - from).max(1e-9);
    // A stretch of no length is drawn as nothing, yet it is there.
    while band.points.len() < 2 {
        band.points.push(place.point(hose.line.point_at(from)));
        band.along_mm.resize(band.points.len(), to);
    }
    band
}

/// Arcs are drawn as cubic curves of no more than this angle: 45°, where a cubic strays from its
/// circle by 4 parts in a million (M. Goldapp, 1991, order 6 in the angle; checked in the tests).
const ARC_PART: f64 = std::f64::consts::FRAC_PI_4;

/// Tells the points of a part of a piece after its first, each with where it is along the piece;
/// they stray from the curve by no more than [`ACCURACY`] on the screen.
fn curve(
    piece: &Piece,
    (from, to): (f64, f64),
    place: &Placing,
    mut point: impl FnMut(DVec2, f64),
) {
    let Piece::Arc { radius, .. } = *piece else {
        point(place.point(piece.point_at(to)), to);
        return;
    };
    let parts = ((to - from) / radius / ARC_PART).ceil().max(1.0) as u32;
    let step = (to - from) / f64::from(parts);
    for part in 0..parts {
        let start = from + step * f64::from(part);
        let cubic = arc_part(piece, start, step, radius, place);
        let chords = chords(&cubic);
        for k in 1..=chords {
            let t = f64::from(k) / f64::from(chords);
            let Point { x, y } = cubic.eval(t);
            point(DVec2::new(x, y), start + step * t);
        }
    }
}

/// A part of an arc as a curve on the screen: it is laid flat by its four points.
fn arc_part(piece: &Piece, start: f64, length: f64, radius: f64, place: &Placing) -> CubicBez {
    let [a, b] = [start, start + length];
    let reach = 4.0 / 3.0 * (length / radius / 4.0).tan() * radius;
    let (from, to) = (piece.point_at(a), piece.point_at(b));
    let out = from + reach * piece.direction_at(a);
    let back = to - reach * piece.direction_at(b);
    let [p0, p1, p2, p3] = [from, out, back, to].map(|p| {
        let flat = place.point(p);
        Point::new(flat.x, flat.y)
    });
    CubicBez { p0, p1, p2, p3 }
}

/// How many chords a curve takes: it strays by no more than an eighth of its greatest second
/// difference, times 6, over the square of their number (G. Wang, 1984).
fn chords(cubic: &CubicBez) -> u32 {
    let CubicBez { p0, p1, p2, p3 } = *cubic;
    let bend =
        |a: Point, b: Point, c: Point| (a.to_vec2() - 2.0 * b.to_vec2() + c.to_vec2()).hypot();
    let most = bend(p0, p1, p2).max(bend(p1, p2, p3));
    (0.75 * most / ACCURACY).sqrt().ceil().clamp(1.0, 400.0) as u32
}

/// The middle of a hose as one line.
pub(super) fn middle_line(hose: &HoseMark, place: &Placing) -> Vec<DVec2> {
    let mut points = Vec::new();
    for (_, piece) in hose.line.pieces() {
        if points.is_empty() {
            points.push(place.point(piece.point_at(0.0)));
        }
        curve(&piece, (0.0, piece.length()), place, |at, _| points.push(at));
    }
    points
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
    Band { points, along_mm, depth, ..empty(hose, kind) }
}

fn empty(hose: usize, kind: BandKind) -> Band {
    Band {
        hose,
        place: 0,
        kind,
        points: Vec::new(),
        along_mm: Vec::new(),
        half: 1.0,
        depth: 0.0,
        before: 0.0,
        round_start: false,
        about: Area::default(),
        cells: Covered::default(),
    }
}

/// The area about some points.
pub(super) fn about(points: &[DVec2]) -> Area {
    let first = points.first().copied().unwrap_or_default();
    let (min, max) = points.iter().fold((first, first), |(min, max), p| (min.min(*p), max.max(*p)));
    Area { min, max }
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
