//! Taking hold of a thing and moving it in a view: only the two coordinates of that view change.

use glam::{DVec2, DVec3};

use super::camera::View;
use super::snap::{Snapped, step_mm};
use super::thing::Thing;
use crate::units::LengthUnit;

/// A drag under way.
#[derive(Debug, Clone, PartialEq)]
pub struct Drag {
    /// What is moved.
    pub thing: Thing,
    /// In which view.
    pub view: View,
    /// Where it was.
    pub from: DVec3,
    /// From the pointer to the thing when it was taken hold of, mm in the view.
    pub grip: DVec2,
    /// Where it landed, and why.
    pub snapped: Option<Snapped>,
}

impl Drag {
    /// Where the thing goes with the pointer at `pointer` (in the plane of the view). Coordinates
    /// that move land on whole steps of the bay's unit; one that does not move stays as it is.
    pub fn place(&self, pointer: DVec2, unit: LengthUnit) -> DVec3 {
        let step = step_mm(unit);
        let old = self.view.project(self.from);
        let new = pointer + self.grip;
        let landed = |old: f64, new: f64| {
            if (new - old).abs() < step / 2.0 { old } else { (new / step).round() * step }
        };
        self.view.with(self.from, DVec2::new(landed(old.x, new.x), landed(old.y, new.y)))
    }
}

#[cfg(test)]
mod tests {
    use glam::{dvec2, dvec3};

    use super::*;

    fn drag(view: View) -> Drag {
        Drag {
            thing: Thing::Port("p".into()),
            view,
            from: dvec3(10.25, 20.25, 30.25),
            grip: dvec2(2.0, -1.0),
            snapped: None,
        }
    }

    #[test]
    fn only_the_two_coordinates_of_the_view_change() {
        assert_eq!(
            drag(View::Plan).place(dvec2(48.3, 61.4), LengthUnit::Mm),
            dvec3(50.0, 60.0, 30.25)
        );
        assert_eq!(
            drag(View::Side).place(dvec2(48.3, 61.4), LengthUnit::Mm),
            dvec3(50.0, 20.25, 60.0)
        );
        assert_eq!(
            drag(View::Front).place(dvec2(48.3, 61.4), LengthUnit::Mm),
            dvec3(10.25, 50.0, 60.0)
        );
    }

    #[test]
    fn a_coordinate_that_does_not_move_is_not_rounded() {
        let back = drag(View::Plan).place(dvec2(8.25, 41.0), LengthUnit::Mm);
        assert_eq!(back, dvec3(10.25, 40.0, 30.25));
    }

    #[test]
    fn inches_land_on_sixteenths() {
        let x = drag(View::Plan).place(dvec2(98.0, 51.0), LengthUnit::Inch).x;
        let sixteenths = x / 25.4 * 16.0;
        assert!((sixteenths - sixteenths.round()).abs() < 1e-9);
    }
}
