//! From the bay to the screen, in f64. The three views stand in their drafting places (ISO 128,
//! third angle): plan above side, front beside side; axes that two views share line up.

use glam::{DVec2, DVec3, dvec2};

use crate::model::Plane;

/// One of the three views.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum View {
    /// From above: X right, Y up.
    Plan,
    /// From the vehicle's right: X right, Z up.
    Side,
    /// From ahead: Y right, Z up.
    Front,
}

/// An axis of the bay.
pub type Axis = usize;

impl View {
    /// All, in reading order.
    pub const ALL: [Self; 3] = [Self::Plan, Self::Side, Self::Front];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Plan => "Plan",
            Self::Side => "Side",
            Self::Front => "Front",
        }
    }

    /// The one that a plane is looked at in.
    pub fn of(plane: Plane) -> Self {
        match plane {
            Plane::Plan => Self::Plan,
            Plane::Side => Self::Side,
            Plane::Front => Self::Front,
        }
    }

    /// The plane that it looks at.
    pub fn plane(self) -> Plane {
        match self {
            Self::Plan => Plane::Plan,
            Self::Side => Plane::Side,
            Self::Front => Plane::Front,
        }
    }

    /// The axes that run right and up the screen.
    pub fn axes(self) -> [Axis; 2] {
        match self {
            Self::Plan => [0, 1],
            Self::Side => [0, 2],
            Self::Front => [1, 2],
        }
    }

    /// The unit vector from the bay to the viewer.
    pub fn to_viewer(self) -> DVec3 {
        match self {
            Self::Plan => DVec3::Z,
            Self::Side => -DVec3::Y,
            Self::Front => DVec3::X,
        }
    }

    /// A point of the bay in the plane of the view: right and up, mm.
    pub fn project(self, point: DVec3) -> DVec2 {
        let [right, up] = self.axes();
        dvec2(point[right], point[up])
    }

    /// How near the viewer a point is, mm.
    pub fn depth(self, point: DVec3) -> f64 {
        point.dot(self.to_viewer())
    }

    /// `point` with the two coordinates of this view replaced.
    pub fn with(self, mut point: DVec3, in_view: DVec2) -> DVec3 {
        let [right, up] = self.axes();
        point[right] = in_view.x;
        point[up] = in_view.y;
        point
    }

    /// Its place in arrays of one a view.
    pub fn index(self) -> usize {
        self as usize
    }
}

/// A rectangle on the screen, points, Y down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Area {
    /// Left and top.
    pub min: DVec2,
    /// Right and bottom.
    pub max: DVec2,
}

impl Area {
    /// Its width and height.
    #[inline]
    pub fn size(self) -> DVec2 {
        self.max - self.min
    }

    /// Its middle.
    #[inline]
    pub fn centre(self) -> DVec2 {
        (self.min + self.max) / 2.0
    }

    /// Whether a point is in it.
    #[inline]
    pub fn contains(self, p: DVec2) -> bool {
        p.cmpge(self.min).all() && p.cmple(self.max).all()
    }

    /// Whether the two have a point in common.
    #[inline]
    pub fn meets(self, other: Self) -> bool {
        self.min.cmple(other.max).all() && other.min.cmple(self.max).all()
    }

    /// Grown on every side.
    #[must_use]
    #[inline]
    pub fn grown(self, by: f64) -> Self {
        Self { min: self.min - by, max: self.max + by }
    }
}

/// Where one view looks and how large it draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// What stands in the middle of the view, right and up, mm.
    pub centre: DVec2,
    /// Screen points a millimetre.
    pub points_per_mm: f64,
    /// Where `centre` stands, from the middle of the view, screen points: a view that is wider than
    /// the one it is in line with draws beside its middle.
    pub aside: DVec2,
}

impl Default for Camera {
    fn default() -> Self {
        Self { centre: DVec2::ZERO, points_per_mm: 1.0, aside: DVec2::ZERO }
    }
}

/// Widest and closest view, points a millimetre: a 50 m bay on a small screen, and 0.02 mm a point.
const SCALES: [f64; 2] = [0.005, 50.0];

impl Camera {
    /// From the plane of the view to the screen.
    pub fn to_screen(&self, area: Area, in_view: DVec2) -> DVec2 {
        let off = (in_view - self.centre) * self.points_per_mm;
        area.centre() + self.aside + dvec2(off.x, -off.y)
    }

    /// From the screen to the plane of the view.
    pub fn from_screen(&self, area: Area, on_screen: DVec2) -> DVec2 {
        let off = (on_screen - area.centre() - self.aside) / self.points_per_mm;
        self.centre + dvec2(off.x, -off.y)
    }

    fn zoom(&mut self, factor: f64, area: Area, at: DVec2) {
        let fixed = self.from_screen(area, at);
        self.points_per_mm = (self.points_per_mm * factor).clamp(SCALES[0], SCALES[1]);
        self.centre += fixed - self.from_screen(area, at);
    }
}

/// The cameras of the three views. Linked, they share one scale and the axes they have in common
/// stay in line; unlinked, each goes its own way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cameras {
    linked: bool,
    own: [Camera; 3],
}

impl Default for Cameras {
    fn default() -> Self {
        Self { linked: true, own: [Camera::default(); 3] }
    }
}

impl Cameras {
    /// The camera of one view.
    pub fn of(&self, view: View) -> Camera {
        self.own[view.index()]
    }

    /// Whether they move together.
    pub fn linked(&self) -> bool {
        self.linked
    }

    /// Links them to the side view, or lets each go its own way from where it is.
    pub fn set_linked(&mut self, linked: bool) {
        self.linked = linked;
        self.share(View::Side);
    }

    /// Moves what a view shows by so many screen points.
    pub fn pan(&mut self, view: View, by: DVec2) {
        let camera = &mut self.own[view.index()];
        camera.centre -= dvec2(by.x, -by.y) / camera.points_per_mm;
        self.share(view);
    }

    /// Zooms a view about a place on the screen. In linked views the axis that this view does not
    /// show is zoomed about `anchor`, where there is one, so that it stays in sight there too.
    pub fn zoom(&mut self, view: View, factor: f64, area: Area, at: DVec2, anchor: Option<DVec3>) {
        let before = self.of(view).points_per_mm;
        self.own[view.index()].zoom(factor, area, at);
        self.share(view);
        let (Some(anchor), true) = (anchor, self.linked) else { return };
        let shrunk = before / self.of(view).points_per_mm;
        for other in View::ALL {
            for (k, axis) in other.axes().into_iter().enumerate() {
                if !view.axes().contains(&axis) {
                    let centre = &mut self.own[other.index()].centre[k];
                    *centre = anchor[axis] + (*centre - anchor[axis]) * shrunk;
                }
            }
        }
    }

    /// Takes note of where the views stand: where plan and side are linked and not equally wide, the
    /// wider one draws in the other's column.
    pub fn stand(&mut self, areas: [Area; 3]) {
        for camera in &mut self.own {
            camera.aside = DVec2::ZERO;
        }
        let [plan, side, _] = areas;
        let [a, b] = [plan, side].map(|area| area.size().x);
        if self.linked && a > 0.0 && b > 0.0 && a != b {
            let (wide, off) = if a > b { (View::Plan, 1.0) } else { (View::Side, -1.0) };
            self.own[wide.index()].aside.x = off * (side.centre().x - plan.centre().x);
        }
    }

    /// Shows the whole of a box: in all views at one scale where linked, else in each as large as
    /// it goes. Views without size are not shown and have no say.
    pub fn fit(&mut self, (min, max): (DVec3, DVec3), areas: [Area; 3]) {
        let middle = (min + max) / 2.0;
        let mut least = f64::INFINITY;
        for view in View::ALL {
            let (camera, area) = (&mut self.own[view.index()], areas[view.index()]);
            camera.centre = view.project(middle);
            if area.size().min_element() > 0.0 {
                camera.points_per_mm = scale_to_fit(view.project(max - min), area, camera.aside);
                least = least.min(camera.points_per_mm);
            }
        }
        if self.linked && least.is_finite() {
            for camera in &mut self.own {
                camera.points_per_mm = least;
            }
        }
    }

    /// Shows the whole of a box in one view, as large as it goes; linked views follow.
    pub fn fit_view(&mut self, view: View, (min, max): (DVec3, DVec3), area: Area) {
        let camera = &mut self.own[view.index()];
        camera.centre = view.project((min + max) / 2.0);
        camera.points_per_mm = scale_to_fit(view.project(max - min), area, camera.aside);
        self.share(view);
    }

    /// Brings a point into the middle of every view.
    pub fn look_at(&mut self, point: DVec3) {
        for view in View::ALL {
            self.own[view.index()].centre = view.project(point);
        }
    }

    /// Lets the linked views follow one.
    fn share(&mut self, from: View) {
        if !self.linked {
            return;
        }
        let camera = self.own[from.index()];
        for view in View::ALL {
            let own = &mut self.own[view.index()];
            own.points_per_mm = camera.points_per_mm;
            for (k, axis) in view.axes().into_iter().enumerate() {
                if let Some(shared) = from.axes().iter().position(|a| *a == axis) {
                    own.centre[k] = camera.centre[shared];
                }
            }
        }
    }
}

/// Free border about a fitted bay, points: room for labels.
const BORDER: DVec2 = dvec2(56.0, 34.0);

fn scale_to_fit(extent_mm: DVec2, area: Area, aside: DVec2) -> f64 {
    let room = (area.size() - 2.0 * (BORDER + aside.abs())).max(DVec2::splat(40.0));
    let scale = room / extent_mm.max(DVec2::splat(1.0));
    scale.min_element().clamp(SCALES[0], SCALES[1])
}

#[cfg(test)]
mod tests {
    use glam::dvec3;

    use super::*;

    fn area(x: f64, y: f64, w: f64, h: f64) -> Area {
        Area { min: dvec2(x, y), max: dvec2(x + w, y + h) }
    }

    fn areas() -> [Area; 3] {
        [
            area(0.0, 50.0, 640.0, 300.0),
            area(0.0, 360.0, 640.0, 280.0),
            area(650.0, 360.0, 300.0, 280.0),
        ]
    }

    fn on_screen(cameras: &Cameras, view: View, p: DVec3) -> DVec2 {
        cameras.of(view).to_screen(areas()[view.index()], view.project(p))
    }

    fn assert_in_line(cameras: &Cameras) {
        let p = dvec3(123.0, -45.0, 67.0);
        let [plan, side, front] = View::ALL.map(|view| on_screen(cameras, view, p));
        assert!((plan.x - side.x).abs() < 1e-9, "X of plan and side");
        assert!((side.y - front.y).abs() < 1e-9, "Z of side and front");
    }

    #[test]
    fn right_up_and_viewer_are_right_handed() {
        for view in View::ALL {
            let [right, up] = view.axes().map(|axis| DVec3::AXES[axis]);
            assert_eq!(right.cross(up), view.to_viewer(), "{}", view.name());
        }
    }

    #[test]
    fn screen_and_back() {
        let camera =
            Camera { centre: dvec2(12.0, -7.0), points_per_mm: 0.37, aside: dvec2(20.0, 0.0) };
        let p = dvec2(1234.5, -987.0);
        let back = camera.from_screen(areas()[0], camera.to_screen(areas()[0], p));
        assert!(back.distance(p) < 1e-9);
    }

    #[test]
    fn up_in_the_bay_is_up_on_the_screen() {
        let camera = Camera::default();
        let (low, high) = (dvec2(0.0, 0.0), dvec2(0.0, 10.0));
        assert!(camera.to_screen(areas()[0], high).y < camera.to_screen(areas()[0], low).y);
    }

    #[test]
    fn shared_axes_stay_in_line_through_fit_pan_and_zoom() {
        let mut cameras = Cameras::default();
        cameras.fit((dvec3(-100.0, -200.0, 0.0), dvec3(900.0, 300.0, 400.0)), areas());
        assert_in_line(&cameras);
        cameras.pan(View::Front, dvec2(31.0, -17.0));
        assert_in_line(&cameras);
        cameras.zoom(View::Plan, 1.7, areas()[0], dvec2(100.0, 90.0), Some(dvec3(1.0, 2.0, 3.0)));
        assert_in_line(&cameras);
        cameras.fit_view(View::Side, (DVec3::ZERO, DVec3::splat(50.0)), areas()[1]);
        assert_in_line(&cameras);
    }

    #[test]
    fn zoom_keeps_what_is_under_the_pointer() {
        let mut cameras = Cameras::default();
        let (area, at) = (areas()[2], dvec2(777.0, 444.0));
        let before = cameras.of(View::Front).from_screen(area, at);
        cameras.zoom(View::Front, 2.5, area, at, None);
        assert!(cameras.of(View::Front).from_screen(area, at).distance(before) < 1e-9);
    }

    #[test]
    fn what_is_pointed_at_stays_where_it_is_in_the_other_views_too() {
        let mut cameras = Cameras::default();
        let p = dvec3(40.0, 60.0, 150.0);
        cameras.look_at(p + dvec3(5.0, -8.0, 30.0));
        let before = View::ALL.map(|view| on_screen(&cameras, view, p));
        let at = before[View::Plan.index()];
        cameras.zoom(View::Plan, 3.0, areas()[0], at, Some(p));
        for view in View::ALL {
            assert!(on_screen(&cameras, view, p).distance(before[view.index()]) < 1e-9, "{view:?}");
        }
    }

    #[test]
    fn unlinked_views_leave_the_others_alone() {
        let mut cameras = Cameras::default();
        cameras.set_linked(false);
        let before = cameras;
        cameras.zoom(View::Plan, 2.0, areas()[0], dvec2(5.0, 5.0), None);
        assert_eq!(cameras.of(View::Side), before.of(View::Side));
        assert_eq!(cameras.of(View::Front), before.of(View::Front));
        cameras.set_linked(true);
        assert_in_line(&cameras);
    }

    #[test]
    fn a_fitted_box_is_inside_every_view() {
        let mut cameras = Cameras::default();
        let (min, max) = (dvec3(-100.0, -200.0, 0.0), dvec3(900.0, 300.0, 400.0));
        cameras.fit((min, max), areas());
        for view in View::ALL {
            for p in [min, max] {
                assert!(areas()[view.index()].contains(on_screen(&cameras, view, p)));
            }
        }
    }

    #[test]
    fn a_plan_wider_than_the_side_view_stays_in_line_with_it() {
        let mut areas = areas();
        areas[0].max.x = areas[2].max.x;
        let mut cameras = Cameras::default();
        cameras.stand(areas);
        cameras.fit((dvec3(-100.0, -200.0, 0.0), dvec3(900.0, 300.0, 400.0)), areas);
        cameras.pan(View::Plan, dvec2(13.0, 5.0));
        let p = dvec3(123.0, -45.0, 67.0);
        let at = |view: View| cameras.of(view).to_screen(areas[view.index()], view.project(p));
        assert!((at(View::Plan).x - at(View::Side).x).abs() < 1e-9);
    }

    #[test]
    fn an_edit_in_a_view_changes_its_two_coordinates_only() {
        let p = dvec3(1.0, 2.0, 3.0);
        assert_eq!(View::Plan.with(p, dvec2(7.0, 8.0)), dvec3(7.0, 8.0, 3.0));
        assert_eq!(View::Side.with(p, dvec2(7.0, 8.0)), dvec3(7.0, 2.0, 8.0));
        assert_eq!(View::Front.with(p, dvec2(7.0, 8.0)), dvec3(1.0, 7.0, 8.0));
    }
}
