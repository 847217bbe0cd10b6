//! The corner of a view that tells its axes: which way the nose is, left and up.

use glam::{DVec2, dvec2};

use super::super::camera::{Area, View};
use crate::model::AXES;

/// Length of an arrow, points.
pub const REACH: f64 = 20.0;
/// From the left lower corner of the view to where the arrows begin: above the scale bar.
const FOOT: DVec2 = dvec2(16.0, 46.0);
/// What arrows and words take up from there: to the right, and up.
const SIZE: DVec2 = dvec2(76.0, 40.0);
/// A view smaller than this has no room for them, points.
const LEAST: DVec2 = dvec2(200.0, 150.0);

/// Where the arrows begin; none in a view too small for them.
pub fn foot(area: Area) -> Option<DVec2> {
    let has_room = area.size().cmpge(LEAST).all();
    has_room.then(|| dvec2(area.min.x + FOOT.x, area.max.y - FOOT.y))
}

/// The room that arrows and words take.
pub fn room(area: Area) -> Option<Area> {
    let foot = foot(area)?;
    let (min, max) = (dvec2(area.min.x, foot.y - SIZE.y), dvec2(foot.x + SIZE.x, foot.y + 8.0));
    Some(Area { min, max })
}

/// The words for what lies to the right and up the screen: "nose X", "left Y".
pub fn words(view: View) -> [&'static str; 2] {
    view.axes().map(|axis| AXES[axis])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_view_says_the_way_of_its_own_two_axes() {
        assert_eq!(words(View::Plan), ["nose X", "left Y"]);
        assert_eq!(words(View::Side), ["nose X", "up Z"]);
        assert_eq!(words(View::Front), ["left Y", "up Z"]);
    }

    #[test]
    fn the_arrows_are_inside_their_view_or_not_there() {
        for size in [dvec2(100.0, 100.0), LEAST, dvec2(900.0, 500.0)] {
            let area = Area { min: dvec2(7.0, 9.0), max: dvec2(7.0, 9.0) + size };
            assert_eq!(room(area).is_some(), size.cmpge(LEAST).all());
            let inside = |room: Area| area.contains(room.min) && area.contains(room.max);
            assert!(room(area).is_none_or(inside));
        }
    }
}
