//! A hose as a round tube in space: stations along its middle, each with a ring about it.

use glam::{DVec2, DVec3};

use super::super::scene::HoseMark;

/// What a stretch of a hose is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stretch {
    /// Hose.
    Hose,
    /// Hose bent tighter than it may be.
    Tight,
    /// The socket about the hose.
    Socket,
    /// The fitting between seat and hose.
    Fitting,
    /// What holds it.
    Clamp,
    /// The middle of the hose in its installed shape.
    Installed,
}

/// A place on the middle of a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Where.
    pub at: DVec3,
    /// Unit vector along.
    pub along: DVec3,
    /// Distance along the drawn centre line, mm.
    pub mm: f64,
}

/// A stretch of one thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube {
    /// What it is.
    pub stretch: Stretch,
    /// Its radius, mm.
    pub radius: f64,
    /// Two or more.
    pub stations: Vec<Station>,
}

/// As in the other views, for the eye only: a socket is a little thicker than its hose, the neck of
/// a fitting thinner.
const SOCKET_TO_HOSE: f64 = 1.2;
const NECK_TO_HOSE: f64 = 0.55;
const CLAMP_TO_HOSE: f64 = 1.5;

/// The tubes of a hose, bends rounded to `accuracy` (mm).
pub fn tubes(hose: &HoseMark, accuracy: f64) -> Vec<Tube> {
    let length = hose.line.length();
    let [a, b] = &hose.ends;
    let sockets = (a.socket_mm.min(length), (length - b.socket_mm).max(0.0));
    let mut cuts = vec![0.0, sockets.0, sockets.1, length];
    cuts.extend(hose.tight.iter().flat_map(|(from, to)| [*from, *to]));
    cuts.retain(|cut| (0.0..=length).contains(cut));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let mut found =
        vec![fitting(&a.fitting, hose.half_mm, 0.0), fitting(&b.fitting, hose.half_mm, length)];
    for pair in cuts.windows(2) {
        let middle = f64::midpoint(pair[0], pair[1]);
        let (stretch, thicker) = if middle < sockets.0 || middle > sockets.1 {
            (Stretch::Socket, SOCKET_TO_HOSE)
        } else if hose.tight.iter().any(|(s, e)| middle > *s && middle < *e) {
            (Stretch::Tight, 1.0)
        } else {
            (Stretch::Hose, 1.0)
        };
        let stations = stations(hose, (pair[0], pair[1]), accuracy);
        found.push(Tube { stretch, radius: hose.half_mm * thicker, stations });
    }
    found.extend(hose.vias.iter().filter_map(|via| {
        let grip = via.clamp?;
        let half = grip.along * grip.half_grip_mm.max(2.0);
        let station = |at| Station { at, along: grip.along, mm: 0.0 };
        Some(Tube {
            stretch: Stretch::Clamp,
            radius: hose.half_mm * CLAMP_TO_HOSE,
            stations: vec![station(via.at - half), station(via.at + half)],
        })
    }));
    found.retain(|tube| tube.stations.len() >= 2 && tube.radius > 0.0);
    found
}

fn stations(hose: &HoseMark, (from, to): (f64, f64), accuracy: f64) -> Vec<Station> {
    let mut found = Vec::new();
    for (start, piece) in hose.line.pieces() {
        let (lo, hi) = (start.max(from), (start + piece.length()).min(to));
        if hi <= lo {
            continue;
        }
        let curvature = piece.curvature();
        let count = if curvature > 0.0 {
            // The sagitta of a chord of length c on a circle of curvature k is about k c² / 8.
            let chord = (8.0 * accuracy / curvature).sqrt().min(0.35 / curvature);
            ((hi - lo) / chord).ceil().clamp(1.0, 200.0) as u32
        } else {
            1
        };
        found.extend((0..=count).map(|k| {
            let mm = lo + (hi - lo) * f64::from(k) / f64::from(count);
            Station { at: piece.point_at(mm - start), along: piece.direction_at(mm - start), mm }
        }));
    }
    // Where one piece ends another begins, mostly in the same direction.
    found.dedup_by(|b, a| a.at.distance(b.at) < 1e-9 && a.along.dot(b.along) > 1.0 - 1e-9);
    found
}

fn fitting(path: &[DVec3], half_mm: f64, mm: f64) -> Tube {
    let station = |i: usize| {
        let (before, after) = (path[i.saturating_sub(1)], path[(i + 1).min(path.len() - 1)]);
        Station { at: path[i], along: (after - before).normalize_or(DVec3::X), mm }
    };
    Tube {
        stretch: Stretch::Fitting,
        radius: half_mm * NECK_TO_HOSE,
        stations: (0..path.len()).map(station).collect(),
    }
}

/// Directions about the middle line at every station, `sides` each, carried along so that the skin
/// is not twisted.
pub fn rings(stations: &[Station], sides: u32) -> Vec<Vec<DVec3>> {
    let Some(first) = stations.first() else { return Vec::new() };
    let mut across = first.along.any_orthonormal_vector();
    let round: Vec<DVec2> = (0..sides)
        .map(|k| DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / f64::from(sides)))
        .collect();
    stations
        .iter()
        .map(|station| {
            let along = station.along;
            across = (across - along * along.dot(across))
                .try_normalize()
                .unwrap_or_else(|| along.any_orthonormal_vector());
            let up = along.cross(across);
            round.iter().map(|d| d.x * across + d.y * up).collect()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::canvas::scene;
    use crate::app::fixture;
    use crate::engine::solve_routing;

    #[test]
    fn tubes_cover_the_hose_end_to_end_and_rings_stand_square_to_it() {
        let bay = fixture::bay();
        let solution = solve_routing(&bay, &bay.routings[0]);
        let scene = scene::build(&bay, &bay.routings[0], &solution, &[]);
        for hose in &scene.hoses {
            let tubes = tubes(hose, 0.2);
            let group = |t: &&Tube| !matches!(t.stretch, Stretch::Fitting | Stretch::Clamp);
            let covered: f64 = tubes
                .iter()
                .filter(group)
                .map(|t| t.stations.last().unwrap().mm - t.stations[0].mm)
                .sum();
            assert!((covered - hose.line.length()).abs() < 1e-6);
            for tube in &tubes {
                for (station, ring) in tube.stations.iter().zip(rings(&tube.stations, 8)) {
                    assert_eq!(ring.len(), 8);
                    for d in ring {
                        assert!((d.length() - 1.0).abs() < 1e-9);
                        assert!(d.dot(station.along).abs() < 1e-9);
                    }
                }
            }
        }
    }
}
