//! What a hose sweeps from position to position.

use glam::DVec2;

use super::InstalledLine;
use crate::app::canvas::outline::offset_convex;
use crate::geom::hull;

/// The hose is swept in so many pieces at most.
const PIECES: usize = 48;

impl InstalledLine {
    /// The surfaces that the hose sweeps, all turned the same way: piece by piece the hull of where the
    /// piece is in every position, its thickness with it. On the way from position to position it stays within them
    /// as far as each point goes straight.
    pub fn swept(&self) -> Vec<Vec<DVec2>> {
        let lines = || std::iter::once(&self.points).chain(&self.positions);
        let count = lines().map(Vec::len).min().unwrap_or(0);
        let step = count.div_ceil(PIECES).max(1);
        let starts = (0..count.saturating_sub(1)).step_by(step);
        let piece = |from: usize| {
            let to = (from + step).min(count - 1);
            let middle = hull(lines().flat_map(|line| line[from..=to].iter().copied()).collect());
            offset_convex(&middle, self.half)
        };
        starts.map(piece).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use glam::dvec2;

    fn contains(polygon: &[DVec2], p: DVec2) -> bool {
        let next = polygon.iter().cycle().skip(1);
        polygon.iter().zip(next).all(|(a, b)| (*b - *a).perp_dot(p - *a) >= -1e-9)
    }

    #[test]
    fn every_place_of_every_position_is_swept_and_the_way_between() {
        let line = |dy: f64| -> Vec<DVec2> {
            (0..=100).map(|k| dvec2(f64::from(k), dy * f64::from(k) / 100.0)).collect()
        };
        let installed = InstalledLine {
            hose: 0,
            points: line(0.0),
            half: 3.0,
            positions: vec![line(0.0), line(20.0), line(-10.0)],
        };
        let swept = installed.swept();
        assert!(swept.len() <= PIECES && swept.len() > 20, "{}", swept.len());
        for dy in [-10.0, -4.0, 0.0, 7.0, 20.0] {
            for p in line(dy) {
                assert!(swept.iter().any(|part| contains(part, p)), "{p}");
            }
        }
        let beside = dvec2(100.0, 23.5);
        assert!(!swept.iter().any(|part| contains(part, beside)));
        assert!(swept.iter().any(|part| contains(part, dvec2(100.0, 22.9))));
    }

    #[test]
    fn a_straight_still_hose_sweeps_its_own_thickness() {
        let installed = InstalledLine {
            hose: 0,
            points: vec![dvec2(0.0, 0.0), dvec2(50.0, 0.0)],
            half: 2.0,
            positions: vec![vec![dvec2(0.0, 0.0), dvec2(50.0, 0.0)]],
        };
        let swept = installed.swept();
        assert_eq!(swept.len(), 1);
        let highest = swept[0].iter().map(|p| p.y).fold(0.0, f64::max);
        assert!((highest - 2.0).abs() < 1e-9);
    }
}
