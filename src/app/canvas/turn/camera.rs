//! The eye of the turning view: it looks along any direction, without foreshortening, so that
//! parallel things stay parallel and a hose is as thick behind as in front.

use std::f64::consts::{FRAC_PI_2, TAU};

use glam::{DVec2, DVec3, dvec2};

use super::super::camera::{Area, View};

/// Where it looks and how large it draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurnCamera {
    /// Direction to the viewer about Z, from +X, rad.
    yaw: f64,
    /// Its height above the horizon, rad, from −π/2 to π/2.
    pitch: f64,
    /// What stands in the middle.
    pub centre: DVec3,
    /// Screen points a millimetre.
    pub points_per_mm: f64,
}

/// Unit vectors of a view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basis {
    /// To the right on the screen.
    pub right: DVec3,
    /// Up the screen.
    pub up: DVec3,
    /// Out of the screen.
    pub to_viewer: DVec3,
}

/// Where the view can be turned to at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Outlook {
    /// As one of the three views.
    View(View),
    /// From ahead, the right and above: three faces of a box at once.
    Corner,
}

impl Outlook {
    /// All, with the words of their buttons and what these do.
    pub const ALL: [(Self, &'static str, &'static str); 4] = [
        (Self::Corner, "ISO", "Look from the front, the right and above"),
        (Self::View(View::Plan), "Plan", "Look from above, as in the plan"),
        (Self::View(View::Side), "Side", "Look from the right, as in the side view"),
        (Self::View(View::Front), "Front", "Look from the front, as in the front view"),
    ];

    fn angles(self) -> (f64, f64) {
        match self {
            Self::View(View::Plan) => (-FRAC_PI_2, FRAC_PI_2),
            Self::View(View::Side) => (-FRAC_PI_2, 0.0),
            Self::View(View::Front) => (0.0, 0.0),
            // Not quite halfway round, so that the corners of a box do not fall on each other.
            Self::Corner => (-0.95, 0.5),
        }
    }
}

/// A drag of this many points turns half round.
const HALF_TURN_POINTS: f64 = 420.0;
const SCALES: [f64; 2] = [0.005, 50.0];
const BORDER: f64 = 16.0;

impl Default for TurnCamera {
    fn default() -> Self {
        let (yaw, pitch) = Outlook::Corner.angles();
        Self { yaw, pitch, centre: DVec3::ZERO, points_per_mm: 1.0 }
    }
}

impl TurnCamera {
    /// The directions of the screen in the bay.
    pub fn basis(&self) -> Basis {
        let ((sin, cos), (rise, run)) = (self.yaw.sin_cos(), self.pitch.sin_cos());
        let to_viewer = DVec3::new(run * cos, run * sin, rise);
        let right = DVec3::new(-sin, cos, 0.0);
        Basis { right, up: to_viewer.cross(right), to_viewer }
    }

    /// From the bay to the screen.
    pub fn to_screen(&self, area: Area, point: DVec3) -> DVec2 {
        let (basis, off) = (self.basis(), point - self.centre);
        let flat = dvec2(off.dot(basis.right), -off.dot(basis.up));
        area.centre() + flat * self.points_per_mm
    }

    /// Turns as if the bay were dragged by so many points: along the screen round Z, up and down
    /// over the horizon, never past straight above.
    pub fn turn(&mut self, by: DVec2) {
        let rad = std::f64::consts::PI / HALF_TURN_POINTS;
        self.yaw = (self.yaw - by.x * rad).rem_euclid(TAU);
        self.pitch = (self.pitch + by.y * rad).clamp(-FRAC_PI_2, FRAC_PI_2);
    }

    /// Looks from one of the known sides.
    pub fn look_from(&mut self, from: Outlook) {
        (self.yaw, self.pitch) = from.angles();
    }

    /// Moves what it shows by so many points.
    pub fn pan(&mut self, by: DVec2) {
        let basis = self.basis();
        self.centre -= (basis.right * by.x - basis.up * by.y) / self.points_per_mm;
    }

    /// Zooms about a place on the screen.
    pub fn zoom(&mut self, factor: f64, area: Area, at: DVec2) {
        let before = self.points_per_mm;
        self.points_per_mm = (before * factor).clamp(SCALES[0], SCALES[1]);
        let off = at - area.centre();
        let basis = self.basis();
        let moved = off / before - off / self.points_per_mm;
        self.centre += basis.right * moved.x - basis.up * moved.y;
    }

    /// Shows the whole of a box, however it is turned afterwards.
    pub fn fit(&mut self, (min, max): (DVec3, DVec3), area: Area) {
        let room = (area.size() - 2.0 * BORDER).max(DVec2::splat(40.0));
        let (basis, half) = (self.basis(), (max - min) / 2.0);
        let reach = |axis: DVec3| (axis.abs() * half).element_sum().max(1.0);
        let scale = (room / 2.0) / dvec2(reach(basis.right), reach(basis.up));
        self.points_per_mm = scale.min_element().clamp(SCALES[0], SCALES[1]);
        self.centre = (min + max) / 2.0;
    }
}

#[cfg(test)]
mod tests {
    use glam::dvec3;

    use super::*;
    use crate::app::canvas::camera::Camera;

    const AREA: Area = Area { min: DVec2::new(40.0, 20.0), max: DVec2::new(640.0, 420.0) };

    fn turned(from: Outlook) -> TurnCamera {
        let mut camera = TurnCamera { points_per_mm: 0.7, ..TurnCamera::default() };
        camera.centre = dvec3(3.0, 4.0, 5.0);
        camera.look_from(from);
        camera
    }

    #[test]
    fn turned_to_a_view_it_shows_what_that_view_shows() {
        let p = dvec3(123.0, -45.0, 67.0);
        for view in View::ALL {
            let camera = turned(Outlook::View(view));
            let flat = Camera {
                centre: view.project(camera.centre),
                points_per_mm: 0.7,
                ..Camera::default()
            };
            let there = flat.to_screen(AREA, view.project(p));
            assert!(camera.to_screen(AREA, p).distance(there) < 1e-9, "{view:?}");
            assert!(camera.basis().to_viewer.distance(view.to_viewer()) < 1e-9, "{view:?}");
        }
    }

    #[test]
    fn its_directions_are_square_and_right_handed_however_it_is_turned() {
        let mut camera = TurnCamera::default();
        for by in [dvec2(91.0, 33.0), dvec2(-700.0, 400.0), dvec2(12.0, -1900.0)] {
            camera.turn(by);
            let Basis { right, up, to_viewer } = camera.basis();
            assert!(right.cross(up).distance(to_viewer) < 1e-12);
            assert!((right.length() - 1.0).abs() < 1e-12 && up.z >= -1e-12, "up stays up");
        }
    }

    #[test]
    fn what_is_dragged_sideways_follows_the_pointer() {
        let mut camera = turned(Outlook::View(View::Front));
        // In front of the middle, near the viewer.
        let p = camera.centre + 100.0 * DVec3::X;
        let before = camera.to_screen(AREA, p);
        camera.turn(dvec2(20.0, 0.0));
        assert!(camera.to_screen(AREA, p).x > before.x);
        let level = camera.to_screen(AREA, p).y;
        camera.turn(dvec2(0.0, 20.0));
        assert!(camera.to_screen(AREA, p).y > level, "and down with it");
    }

    #[test]
    fn zoom_and_pan_keep_what_is_under_the_pointer() {
        let mut camera = turned(Outlook::Corner);
        let p = dvec3(60.0, -80.0, 90.0);
        let at = camera.to_screen(AREA, p);
        camera.zoom(2.3, AREA, at);
        assert!(camera.to_screen(AREA, p).distance(at) < 1e-9);
        camera.pan(dvec2(7.0, -9.0));
        assert!(camera.to_screen(AREA, p).distance(at + dvec2(7.0, -9.0)) < 1e-9);
    }

    #[test]
    fn a_fitted_box_is_inside_the_view() {
        let (min, max) = (dvec3(-100.0, -400.0, 0.0), dvec3(900.0, 300.0, 400.0));
        for (from, ..) in Outlook::ALL {
            let mut camera = turned(from);
            camera.fit((min, max), AREA);
            for k in 0..8_u32 {
                let pick = |axis: u32| f64::from(k >> axis & 1);
                let p = min + (max - min) * dvec3(pick(0), pick(1), pick(2));
                assert!(AREA.contains(camera.to_screen(AREA, p)), "{from:?}");
            }
        }
    }
}
