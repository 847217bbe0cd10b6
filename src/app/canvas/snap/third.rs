//! The coordinate that a view does not show, for a new thing: from what is near under the pointer.

use glam::{DVec2, DVec3, dvec2};

use super::REACH;
use super::align::in_line;
use super::plane::third_axis;
use crate::app::canvas::camera::{Axis, View};
use crate::app::canvas::scene::{HoseMark, Scene};
use crate::app::canvas::thing::Thing;
use crate::app::words;
use crate::model::Shape;
use crate::units::Length;

/// The third coordinate and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct ThirdCoordinate {
    /// Its value, mm.
    pub mm: f64,
    /// Both in words: "Z 120 mm, level with Filter, outlet".
    pub words: String,
    /// What it was taken from, where that can be selected.
    pub target: Option<Thing>,
}

/// The coordinate that `view` does not show, for a new thing at `raw` in its plane. By rank: a port under
/// the pointer; a corner or a clamp; a hose, at that place of its centre line; an obstacle, at its face nearest
/// the viewer; what was `last_used`; the middle of the bay; 0 in an empty one.
pub fn third_coordinate(
    scene: &Scene,
    view: View,
    raw: DVec2,
    points_per_mm: f64,
    last_used: Option<f64>,
) -> ThirdCoordinate {
    let near = Near { scene, view, raw, reach: REACH / points_per_mm };
    let axis = third_axis(view);
    let (mm, why, target) = near
        .port()
        .or_else(|| near.via())
        .or_else(|| near.hose())
        .or_else(|| near.obstacle())
        .or_else(|| Some((last_used.filter(|mm| mm.is_finite())?, "as before".to_owned(), None)))
        .unwrap_or_else(|| middle(scene, axis));
    let figure = Length::from_mm(mm).show(scene.unit);
    let words = format!("{} {figure}, {why}", ["X", "Y", "Z"][axis]);
    ThirdCoordinate { mm, words, target }
}

type Found = (f64, String, Option<Thing>);

fn middle(scene: &Scene, axis: Axis) -> Found {
    match scene.bounds {
        Some((lo, hi)) => (f64::midpoint(lo[axis], hi[axis]), "middle of the bay".to_owned(), None),
        None => (0.0, "the bay is empty".to_owned(), None),
    }
}

struct Near<'a> {
    scene: &'a Scene,
    view: View,
    raw: DVec2,
    /// In the bay, mm.
    reach: f64,
}

impl Near<'_> {
    fn distance(&self, p: DVec3) -> f64 {
        self.view.project(p).distance(self.raw)
    }

    /// Of several places under the pointer the nearest to it, then the nearest to the viewer.
    fn first<T>(&self, found: impl Iterator<Item = (T, DVec3, f64)>) -> Option<(T, DVec3)> {
        let best = found.filter(|(_, _, distance)| distance.is_finite()).min_by(|a, b| {
            let depth = |p: DVec3| self.view.depth(p);
            a.2.total_cmp(&b.2).then(depth(b.1).total_cmp(&depth(a.1)))
        })?;
        Some((best.0, best.1))
    }

    fn level(&self, name: &str) -> String {
        format!("{} {name}", in_line(third_axis(self.view)))
    }

    fn of(&self, p: DVec3) -> f64 {
        p[third_axis(self.view)]
    }

    fn port(&self) -> Option<Found> {
        let ports = self.scene.ports.iter().map(|port| (port, port.at, self.distance(port.at)));
        let within = ports.filter(|(port, _, far)| *far <= self.reach.max(port.radius_mm));
        let (port, at) = self.first(within)?;
        let why = self.level(&words::short(&port.name));
        Some((self.of(at), why, Some(Thing::Port(port.id.clone()))))
    }

    fn via(&self) -> Option<Found> {
        let vias = self.scene.hoses.iter().flat_map(|hose| {
            hose.vias.iter().map(move |via| ((hose, via), via.at, self.distance(via.at)))
        });
        let ((hose, via), at) = self.first(vias.filter(|(_, _, far)| *far <= self.reach))?;
        let name = format!("{} of {}", via.name.to_lowercase(), words::short(&hose.name));
        let thing = Thing::Via { run: hose.run.clone(), via: via.via };
        Some((self.of(at), self.level(&name), Some(thing)))
    }

    fn hose(&self) -> Option<Found> {
        let hoses = self.scene.hoses.iter().filter_map(|hose| {
            let (at, far) = self.nearest_on(hose)?;
            // Anywhere on the group of the hose is on it.
            let beside = (far - hose.half_mm).max(0.0);
            (far <= self.reach.max(hose.half_mm)).then_some((hose, at, beside))
        });
        let (hose, at) = self.first(hoses)?;
        let why = format!("on {}", words::short(&hose.name));
        Some((self.of(at), why, Some(Thing::Hose(hose.run.clone()))))
    }

    /// The place of a centre line nearest to the pointer as it is seen, and how far it is.
    fn nearest_on(&self, hose: &HoseMark) -> Option<(DVec3, f64)> {
        const ACCURACY_MM: f64 = 0.5;
        let points = hose.line.sampled(ACCURACY_MM);
        let places = points.windows(2).map(|pair| {
            let (a, b) = (self.view.project(pair[0]), self.view.project(pair[1]));
            let way = b - a;
            let share = (self.raw - a).dot(way) / way.length_squared().max(f64::MIN_POSITIVE);
            let place = pair[0].lerp(pair[1], share.clamp(0.0, 1.0));
            ((), place, self.distance(place))
        });
        let ((), place) = self.first(places)?;
        Some((place, self.distance(place)))
    }

    fn obstacle(&self) -> Option<Found> {
        let toward = self.of(self.view.to_viewer());
        let faces = self.scene.obstacles.iter().filter_map(|obstacle| {
            Some((obstacle, nearest_face(self.view, &obstacle.shape, self.raw)?))
        });
        let (obstacle, face) = faces.max_by(|a, b| (a.1 * toward).total_cmp(&(b.1 * toward)))?;
        let thing = Thing::Obstacle(obstacle.id.clone());
        Some((face, format!("on {}", words::short(&obstacle.name)), Some(thing)))
    }
}

/// The third coordinate of a shape's face nearest the viewer at a place of the view; none beside it.
fn nearest_face(view: View, shape: &Shape, raw: DVec2) -> Option<f64> {
    let axis = third_axis(view);
    let toward = view.to_viewer()[axis];
    let nearer = |a: f64, b: f64| if a * toward >= b * toward { a } else { b };
    match shape {
        Shape::Box { min, max } => {
            let (lo, hi) = (view.project(*min), view.project(*max));
            let inside = raw.cmpge(lo).all() && raw.cmple(hi).all();
            inside.then(|| nearer(min[axis], max[axis]))
        }
        Shape::Sphere { at, radius } => {
            let rise = radius * radius - raw.distance_squared(view.project(*at));
            (rise >= 0.0).then(|| at[axis] + toward * rise.sqrt())
        }
        Shape::Cylinder { from, to, radius } => {
            let sight = Sight { at: view.with(DVec3::ZERO, raw), along: DVec3::AXES[axis] };
            sight.cylinder(*from, *to, *radius).reduce(nearer)
        }
        Shape::Mesh { mesh, .. } => {
            let corners = |t: &[u32; 3]| t.map(|i| mesh.vertex(i).unwrap_or_default());
            let hits = mesh.triangles().iter().filter_map(|t| triangle(view, corners(t), raw));
            hits.reduce(nearer)
        }
    }
}

/// A line of sight.
struct Sight {
    at: DVec3,
    along: DVec3,
}

impl Sight {
    /// Where it goes through the surface of a cylinder with flat ends, as distances along it.
    fn cylinder(&self, from: DVec3, to: DVec3, radius: f64) -> impl Iterator<Item = f64> {
        let length = from.distance(to);
        let axis = (to - from).normalize_or_zero();
        let start = self.at - from;
        let (steep, ahead) = (self.along.dot(axis), start.dot(axis));
        let (across, off) = (self.along - axis * steep, start - axis * ahead);
        let (a, b) = (across.length_squared(), across.dot(off));
        let root = (b * b - a * (off.length_squared() - radius * radius)).sqrt();
        let sides = [(-b - root) / a, (-b + root) / a];
        let sides = sides.into_iter().filter(move |t| {
            let along = ahead + t * steep;
            t.is_finite() && (0.0..=length).contains(&along)
        });
        let ends = [(0.0 - ahead) / steep, (length - ahead) / steep];
        let ends = ends
            .into_iter()
            .filter(move |t| t.is_finite() && (off + across * *t).length() <= radius);
        sides.chain(ends)
    }
}

/// Where the line of sight at `raw` goes through a triangle.
fn triangle(view: View, corners: [DVec3; 3], raw: DVec2) -> Option<f64> {
    let [a, b, c] = corners.map(|corner| view.project(corner));
    let double = (b - a).perp_dot(c - a);
    let shares = dvec2((raw - a).perp_dot(c - a), (b - a).perp_dot(raw - a)) / double;
    let inside = shares.x >= 0.0 && shares.y >= 0.0 && shares.x + shares.y <= 1.0;
    let [a, b, c] = corners.map(|corner| corner[third_axis(view)]);
    inside.then_some(a + shares.x * (b - a) + shares.y * (c - a))
}
