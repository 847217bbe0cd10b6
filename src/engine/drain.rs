//! How a line falls towards its end: the least slope along it, and what stands in the way.

use glam::DVec3;

/// How a line falls, followed the way it drains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fall {
    /// The least angle below the horizontal along it, degrees; negative where it rises.
    pub least_deg: f64,
    /// The middle of the piece with that angle, along the line.
    pub at_mm: f64,
    /// The same in the bay.
    pub point: DVec3,
    /// How far the line stands too high at [`Self::high_mm`], against a line that falls as asked from
    /// [`Self::low_mm`] on; 0 where it falls enough all along.
    pub too_high_mm: f64,
    /// Along the line.
    pub high_mm: f64,
    /// Along the line, before that.
    pub low_mm: f64,
    /// How far its end lies too high for any line that falls as asked, the straight one included.
    pub end_too_high_mm: f64,
}

/// How the line through `points` falls, against a least slope (fall over horizontal way), where `up` is
/// up. None without two points apart.
///
/// The line falls as asked where `g = height + slope · horizontal way so far` never grows; what it has
/// grown by is how far it stands too high.
pub fn fall(points: &[DVec3], up: DVec3, least_slope: f64) -> Option<Fall> {
    let (first, last) = (points.first()?, points.last()?);
    let across = |way: DVec3| (way - way.dot(up) * up).length();
    let whole = *last - *first;
    let end_too_high_mm = whole.dot(up) + least_slope * across(whole);
    let mut least: Option<(f64, f64, DVec3)> = None;
    let (mut along, mut grown) = (0.0, 0.0);
    let (mut low, mut high) = ((0.0, 0.0), (0.0, 0.0, 0.0));
    for pair in points.windows(2) {
        let way = pair[1] - pair[0];
        let length = way.length();
        if length <= f64::EPSILON {
            continue;
        }
        let deg = (-way.dot(up) / length).clamp(-1.0, 1.0).asin().to_degrees();
        if least.is_none_or(|(found, ..)| deg < found) {
            least = Some((deg, along + length / 2.0, pair[0].midpoint(pair[1])));
        }
        along += length;
        grown += way.dot(up) + least_slope * across(way);
        if grown < low.0 {
            low = (grown, along);
        }
        if grown - low.0 > high.0 {
            high = (grown - low.0, along, low.1);
        }
    }
    let (least_deg, at_mm, point) = least?;
    let (too_high_mm, high_mm, low_mm) = high;
    Some(Fall { least_deg, at_mm, point, too_high_mm, high_mm, low_mm, end_too_high_mm })
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLOPE: f64 = 1.0 / 48.0;

    #[test]
    fn a_straight_line_by_hand() {
        // 5 down over 12 across: 22.62°.
        let fall = fall(&[DVec3::ZERO, DVec3::new(12.0, 0.0, -5.0)], DVec3::Z, SLOPE).unwrap();
        assert!((fall.least_deg - 22.619_864_948).abs() < 1e-9);
        assert_eq!((fall.at_mm, fall.too_high_mm), (6.5, 0.0));
        assert!((fall.end_too_high_mm - (-5.0 + 12.0 / 48.0)).abs() < 1e-12);
    }

    #[test]
    fn a_dip_stands_too_high_behind_its_lowest_place() {
        // 480 across and 40 down, then 48 across and 9 up: the far side stands 9 + 1 too high.
        let points = [DVec3::ZERO, DVec3::new(480.0, 0.0, -40.0), DVec3::new(528.0, 0.0, -31.0)];
        let dip = fall(&points, DVec3::Z, SLOPE).unwrap();
        let to_low = 480.0_f64.hypot(40.0);
        assert!((dip.too_high_mm - 10.0).abs() < 1e-9);
        assert!((dip.low_mm - to_low).abs() < 1e-9);
        assert!((dip.high_mm - to_low - 48.0_f64.hypot(9.0)).abs() < 1e-9);
        assert!((dip.least_deg + (9.0_f64 / 48.0).atan().to_degrees()).abs() < 1e-9);
        assert!(dip.end_too_high_mm < 0.0);
    }

    #[test]
    fn exactly_the_least_slope_is_enough_and_nothing_is_no_line() {
        let line = [DVec3::ZERO, DVec3::new(48.0, 0.0, -1.0), DVec3::new(96.0, 0.0, -2.0)];
        let fall_of = fall(&line, DVec3::Z, SLOPE).unwrap();
        assert!(
            fall_of.too_high_mm < 1e-12
                && (fall_of.least_deg - SLOPE.atan().to_degrees()).abs() < 1e-9
        );
        assert_eq!(fall(&[DVec3::ZERO, DVec3::ZERO], DVec3::Z, SLOPE), None);
        assert_eq!(fall(&[], DVec3::Z, SLOPE), None);
    }
}
