//! Names on the drawing: by rank, each at a free place or not at all. First what is in hand and the
//! ports of the selected hose, then the other ports, then what can hurt a hose, then plain obstacles.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::super::thing::Thing;
use super::names::{Label, Named};
use super::room::Room;
use super::{Marker, ObstacleShape, PortShape, ViaShape, ViewLayout, whole};
use crate::model::Nature;

/// How names are set.
pub struct Naming<'a> {
    /// Tells the size of a text.
    pub measure: &'a dyn Fn(&str) -> DVec2,
    /// Ports that are named before others, wherever there is a place in the view at all; by their
    /// place in the scene.
    pub first: &'a [usize],
    /// What is pointed at or taken hold of.
    pub thing: Option<&'a Thing>,
    /// The finding that is looked at: its mark is shown even where it is but a note.
    pub finding: Option<usize>,
    /// How far the buttons in the right upper corner reach, points.
    pub buttons: f64,
}

/// Names on a view until something is pointed at.
const HANDFUL: usize = 5;

/// A name covers hoses by no more than this share of its area: past it, it is left out.
const OVER_HOSES: f64 = 0.2;
const PLAIN_OVER_HOSES: f64 = 0.08;

pub(super) fn lay_out(scene: &Scene, layout: &ViewLayout, naming: &Naming<'_>) -> Vec<Label> {
    let mut setting = Setting::new(layout, naming);
    setting.held();
    for port in naming.first.iter().filter_map(|index| layout.ports.get(*index)) {
        setting.port(scene, port, true);
    }
    // Where no hose is selected the ports speak first; else those of other hoses wait to be pointed at.
    if naming.first.is_empty() {
        for port in &layout.ports {
            if setting.has_room() {
                setting.port(scene, port, false);
            }
        }
    }
    // What can hurt a hose; plain obstacles wait too.
    for (k, _) in layout.obstacles.iter().enumerate().filter(|(_, o)| o.nature != Nature::Plain) {
        if setting.has_room() {
            setting.obstacle(scene, k);
        }
    }
    whole::write_out(&mut setting.labels, &mut setting.room, scene, naming.measure);
    setting.labels
}

/// The same while something is moved: the names of what stays where it was in `before` stay too, so
/// that nothing flickers; with a view that is moved along they move along. Views of different scales
/// have nothing in common.
pub(super) fn follow(
    scene: &Scene,
    layout: &ViewLayout,
    naming: &Naming<'_>,
    before: &ViewLayout,
) -> Vec<Label> {
    let Some(shift) = shift(before, layout) else { return lay_out(scene, layout, naming) };
    let stays_at = |old: DVec2, new: DVec2| (old + shift).abs_diff_eq(new, 1e-6);
    let obstacle_in = |layout: &ViewLayout, index: usize| {
        layout.obstacles.iter().position(|obstacle| obstacle.index == index)
    };
    let mut setting = Setting::without_hoses(layout, naming);
    let mut moved = Vec::new();
    for label in &before.labels {
        let stays = match label.of {
            Named::Port(i) => {
                let [old, new] = [before, layout].map(|l| l.ports.get(i).map(|port| port.at));
                old.zip(new).is_some_and(|(old, new)| stays_at(old, new))
            }
            Named::Obstacle(i) => match (obstacle_in(before, i), obstacle_in(layout, i)) {
                (Some(a), Some(b)) => {
                    let [old, new] = [&before.obstacles[a].about, &layout.obstacles[b].about];
                    stays_at(old.min, new.min) && stays_at(old.max, new.max)
                }
                _ => false,
            },
            Named::Held => continue,
        };
        if stays {
            let label = label.moved(shift);
            // What leaves the view with its thing loses its name.
            if setting.room.is_inside(label.area) {
                setting.room.take(label.area);
                setting.labels.push(label);
            }
        } else {
            moved.push(label.of);
        }
    }
    if !moved.is_empty() {
        setting.room.mark_hoses(&layout.bands, layout.area);
    } else if let Some(via) = setting.held_via() {
        setting.room.mark_hoses(&layout.bands, about(via.at, setting.reach(&via.name)));
    }
    setting.held();
    for of in moved {
        match of {
            Named::Port(i) => {
                if let Some(port) = layout.ports.get(i) {
                    setting.port(scene, port, true);
                }
            }
            Named::Obstacle(i) => {
                if let Some(k) = obstacle_in(layout, i) {
                    setting.obstacle(scene, k);
                }
            }
            Named::Held => {}
        }
    }
    setting.labels
}

/// How far everything that stays in the bay has moved on the screen; none where it has not only moved.
fn shift(before: &ViewLayout, layout: &ViewLayout) -> Option<DVec2> {
    let same =
        before.area == layout.area && before.camera.points_per_mm == layout.camera.points_per_mm;
    let origin = |l: &ViewLayout| l.camera.to_screen(l.area, DVec2::ZERO);
    same.then(|| origin(layout) - origin(before))
}

/// The marks of findings that the view shows.
fn shown(markers: &[Marker], looked_at: Option<usize>) -> impl Iterator<Item = &Marker> {
    markers.iter().filter(move |marker| marker.is_shown(looked_at))
}

fn about(at: DVec2, reach: f64) -> Area {
    Area { min: at, max: at }.grown(reach)
}

/// The corners of the view that its title, its scale bar and its buttons take.
fn corners(layout: &ViewLayout, buttons: f64) -> [Area; 3] {
    let Area { min, max } = layout.area;
    let foot = dvec2(min.x, max.y);
    let title = Area { min, max: min + dvec2(130.0, 30.0) };
    let scale = Area {
        min: foot - dvec2(0.0, 34.0),
        max: foot + dvec2(layout.scale_bar.points + 26.0, 0.0),
    };
    let head = dvec2(max.x, min.y);
    let buttons = Area { min: head - dvec2(buttons, 0.0), max: head + dvec2(0.0, 34.0) };
    [title, scale, buttons]
}

struct Setting<'a> {
    layout: &'a ViewLayout,
    naming: &'a Naming<'a>,
    room: Room,
    labels: Vec<Label>,
}

/// How far off a name of the first rank may stand, points.
const REACHES: [f64; 4] = [4.0, 22.0, 44.0, 70.0];

/// Where a name may stand about a round mark: across and up, in halves of mark and name together.
const PLACES: [DVec2; 20] = [
    dvec2(0.0, 1.0),
    dvec2(1.0, 0.0),
    dvec2(-1.0, 0.0),
    dvec2(0.0, -1.0),
    dvec2(1.0, 0.5),
    dvec2(-1.0, 0.5),
    dvec2(1.0, -0.5),
    dvec2(-1.0, -0.5),
    dvec2(1.0, 1.0),
    dvec2(-1.0, 1.0),
    dvec2(1.0, -1.0),
    dvec2(-1.0, -1.0),
    dvec2(0.3, 1.0),
    dvec2(-0.3, 1.0),
    dvec2(0.3, -1.0),
    dvec2(-0.3, -1.0),
    dvec2(0.6, 1.0),
    dvec2(-0.6, 1.0),
    dvec2(0.6, -1.0),
    dvec2(-0.6, -1.0),
];

impl<'a> Setting<'a> {
    fn new(layout: &'a ViewLayout, naming: &'a Naming<'a>) -> Self {
        let mut setting = Self::without_hoses(layout, naming);
        setting.room.mark_hoses(&layout.bands, layout.area);
        setting
    }

    /// Where no hose is in the way as yet.
    fn without_hoses(layout: &'a ViewLayout, naming: &'a Naming<'a>) -> Self {
        let mut taken: Vec<Area> =
            layout.ports.iter().map(|port| about(port.at, port.radius + 1.0)).collect();
        taken.extend(shown(&layout.markers, naming.finding).map(|marker| about(marker.at, 9.0)));
        taken.extend(corners(layout, naming.buttons));
        let room = Room::new(layout.area, taken);
        let labels = Vec::with_capacity(layout.ports.len() + layout.obstacles.len());
        Self { layout, naming, room, labels }
    }

    /// Whether one name more leaves the view calm.
    fn has_room(&self) -> bool {
        self.labels.len() < HANDFUL
    }

    fn put(&mut self, of: Named, text: &str, area: Area, quiet: bool, on_paper: bool) {
        self.room.take(area);
        let text = text.to_owned();
        self.labels.push(Label { text, area, quiet, on_paper, leader: None, of });
    }

    fn port(&mut self, scene: &Scene, port: &PortShape, first: bool) {
        let text = &scene.ports[port.index].label;
        let of = Named::Port(port.index);
        self.mark(of, text, port.at, port.radius, port.toward, first);
    }

    /// The corner or clamp that is pointed at or taken hold of.
    fn held(&mut self) {
        if let Some(via) = self.held_via() {
            self.mark(Named::Held, &via.name, via.at, 8.0, DVec2::ZERO, true);
        }
    }

    fn held_via(&self) -> Option<&'a ViaShape> {
        let thing = self.naming.thing?;
        self.layout.vias.iter().find(|via| via.thing == *thing)
    }

    /// How far from a mark its name may reach, points; but for a name that finds no place about it.
    fn reach(&self, text: &str) -> f64 {
        let size = (self.naming.measure)(text);
        size.max_element() + REACHES[REACHES.len() - 1] + 20.0
    }

    /// Names a round mark; one that comes first also farther off, at the end of a line.
    fn mark(&mut self, of: Named, text: &str, at: DVec2, radius: f64, toward: DVec2, first: bool) {
        if !self.layout.area.contains(at) {
            return;
        }
        let size = (self.naming.measure)(text);
        let away = -toward.normalize_or_zero();
        let reaches: &[f64] = if first { &REACHES } else { &[4.0] };
        let places = reaches.iter().flat_map(|gap| {
            PLACES.iter().map(move |place| {
                let middle = at + *place * (DVec2::splat(radius + gap) + size / 2.0);
                // A place just beside before any far one, then what covers least, then the side
                // that the hose does not leave by.
                let side = 0.1 * (1.0 - place.normalize().dot(away));
                (centred(middle, size), gap / 20.0 + side)
            })
        });
        let ranked =
            places.filter(|(area, _)| self.room.is_free(*area)).filter_map(|(area, rank)| {
                let share = self.room.hose_share(area);
                (first || share <= OVER_HOSES).then_some((area, rank + 4.0 * share))
            });
        let best = ranked.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(area, _)| area);
        let Some(area) = best.or_else(|| self.anywhere(at, size).filter(|_| first)) else { return };
        self.put(of, text, area, false, true);
        let near = at.clamp(area.min, area.max);
        let distance = near.distance(at);
        if let (true, Some(label)) = (distance > radius * 1.5 + 8.0, self.labels.last_mut()) {
            label.leader = Some([at + (near - at) * (radius / distance), near]);
        }
    }

    /// The free place of the view nearest to a point.
    fn anywhere(&self, at: DVec2, size: DVec2) -> Option<Area> {
        let Area { min, max } = self.layout.area;
        let step = dvec2(24.0, 8.0);
        let counts = ((max - min - size) / step).floor().max(DVec2::ZERO);
        let places = (0..=counts.y as u32).flat_map(|y| {
            (0..=counts.x as u32).map(move |x| min + step * dvec2(f64::from(x), f64::from(y)))
        });
        let areas = places.map(|min| Area { min, max: min + size });
        let far = |area: &Area| at.clamp(area.min, area.max).distance_squared(at);
        let nearest = areas.fold(None, |nearest: Option<(Area, f64)>, area| {
            let far = far(&area);
            let is_nearer = nearest.is_none_or(|(_, least)| far < least);
            if is_nearer && self.room.is_free(area) { Some((area, far)) } else { nearest }
        });
        nearest.map(|(area, _)| area)
    }

    /// Names the obstacle at place `k` of the layout by the first of its texts that finds room.
    fn obstacle(&mut self, scene: &Scene, k: usize) {
        let shape = &self.layout.obstacles[k];
        let (plain, of) = (shape.nature == Nature::Plain, Named::Obstacle(shape.index));
        let mark = &scene.obstacles[shape.index];
        let texts = [mark.label.as_str(), mark.name.as_str()];
        let inside = texts.into_iter().find_map(|text| Some((text, self.inside(k, text)?)));
        if let Some((text, area)) = inside {
            self.put(of, text, area, true, !plain);
        } else if !plain
            && let Some((text, area)) =
                texts.into_iter().find_map(|text| Some((text, self.beside(k, text)?)))
        {
            self.put(of, text, area, true, true);
        }
    }

    fn inside(&self, k: usize, text: &str) -> Option<Area> {
        let obstacle = &self.layout.obstacles[k];
        let size = (self.naming.measure)(text);
        let (lo, hi) = self.extent(obstacle)?;
        let pad = dvec2(6.0, 4.0);
        let (lo, hi) = (lo + pad, hi - pad - size);
        if !hi.cmpge(lo).all() {
            return None;
        }
        let plain = obstacle.nature == Nature::Plain;
        let most = if plain { PLAIN_OVER_HOSES } else { OVER_HOSES };
        // From the lower left, as a drawing is lettered.
        let shares = [0.0, 0.25, 0.5, 0.75, 1.0];
        let places = shares.iter().flat_map(|up| {
            shares
                .iter()
                .map(move |right| dvec2(lo.x + right * (hi.x - lo.x), hi.y - up * (hi.y - lo.y)))
        });
        let areas = places.map(|min| Area { min, max: min + size });
        let free = areas.filter(|area| self.room.is_free(*area) && self.installed_in(k, *area));
        let ranked = free.map(|area| (area, self.room.hose_share(area)));
        let best = ranked.min_by(|a, b| a.1.total_cmp(&b.1));
        best.filter(|(_, share)| *share <= most).map(|(area, _)| area)
    }

    /// Whether an area is on one obstacle and on none that hides it.
    fn installed_in(&self, k: usize, area: Area) -> bool {
        let Area { min, max } = area;
        let corners = [min, dvec2(max.x, min.y), max, dvec2(min.x, max.y)];
        let mut nearer = self.layout.obstacles.iter().skip(k + 1);
        corners.iter().all(|corner| self.layout.obstacles[k].contains(*corner))
            && !nearer.any(|other| other.contains(area.centre()))
    }

    fn beside(&self, k: usize, text: &str) -> Option<Area> {
        let size = (self.naming.measure)(text);
        let (lo, hi) = self.extent(&self.layout.obstacles[k])?;
        let (middle, gap) = ((lo + hi) / 2.0, size / 2.0 + 3.0);
        let places = [
            dvec2(middle.x, hi.y + gap.y),
            dvec2(middle.x, lo.y - gap.y),
            dvec2(hi.x + gap.x, middle.y),
            dvec2(lo.x - gap.x, middle.y),
        ];
        let mut areas = places.into_iter().map(|middle| centred(middle, size));
        areas.find(|area| {
            self.room.is_free(*area)
                && self.room.hose_share(*area) <= OVER_HOSES
                && !self.is_by_another(k, *area)
        })
    }

    /// Whether a name there would be read as that of another thing that can hurt a hose.
    fn is_by_another(&self, k: usize, area: Area) -> bool {
        let about = area.grown(5.0);
        let Area { min, max } = about;
        let middle = area.centre();
        let others = self.layout.obstacles.iter().enumerate();
        let mut others = others.filter(|(j, other)| *j != k && other.nature != Nature::Plain);
        others.any(|(_, other)| {
            other.about.meets(about)
                && [min.x, middle.x, max.x]
                    .iter()
                    .any(|x| [min.y, middle.y, max.y].iter().any(|y| other.contains(dvec2(*x, *y))))
        })
    }

    /// The part of an obstacle that the view shows, left and top, right and bottom.
    fn extent(&self, obstacle: &ObstacleShape) -> Option<(DVec2, DVec2)> {
        let Area { min, max } = obstacle.about;
        let view = self.layout.area;
        let (min, max) = (min.max(view.min), max.min(view.max));
        min.cmple(max).all().then_some((min, max))
    }
}

/// The name of the port, hose or obstacle under the pointer, where it is not written on the drawing
/// already.
pub fn pointed(
    scene: &Scene,
    layout: &ViewLayout,
    pointer: DVec2,
    measure: &dyn Fn(&str) -> DVec2,
) -> Option<Label> {
    if !layout.area.contains(pointer) {
        return None;
    }
    let (name, label) = under(scene, layout, pointer)?;
    if layout.labels.iter().any(|known| known.text == label || known.text == name) {
        return None;
    }
    let size = measure(label);
    let middle = pointer + dvec2(0.0, -size.y - 6.0);
    let limit = layout.area.grown(-4.0);
    let (lo, hi) = (limit.min, (limit.max - size).max(limit.min));
    let min = (middle - size / 2.0).clamp(lo, hi);
    let area = Area { min, max: min + size };
    let (text, of) = (label.to_owned(), Named::Held);
    Some(Label { text, area, quiet: false, on_paper: true, leader: None, of })
}

/// Name and label of what lies on top here.
fn under<'a>(scene: &'a Scene, layout: &ViewLayout, pointer: DVec2) -> Option<(&'a str, &'a str)> {
    let is_on = |port: &&PortShape| port.at.distance(pointer) <= port.radius + 3.0;
    if let Some(port) = layout.ports.iter().find(is_on) {
        let mark = &scene.ports[port.index];
        return Some((&mark.name, &mark.label));
    }
    if let Some((hose, _)) = layout.hose_at(pointer) {
        let name = &scene.hoses[hose].name;
        return Some((name, name));
    }
    let obstacle = layout.obstacles.iter().rev().find(|obstacle| obstacle.contains(pointer))?;
    let mark = &scene.obstacles[obstacle.index];
    Some((&mark.name, &mark.label))
}

fn centred(middle: DVec2, size: DVec2) -> Area {
    Area { min: middle - size / 2.0, max: middle + size / 2.0 }
}

impl Outline {
    fn points(&self) -> Box<dyn Iterator<Item = DVec2> + '_> {
        match self {
            Self::Convex(points) => Box::new(points.iter().copied()),
            Self::Shadow(shadow) => Box::new(shadow.loops.iter().flatten().copied()),
        }
    }

    /// Least and greatest coordinates; none where nothing is.
    pub(in crate::app::canvas) fn extent(&self) -> Option<(DVec2, DVec2)> {
        let mut points = self.points();
        let first = points.next()?;
        Some(points.fold((first, first), |(lo, hi), p| (lo.min(p), hi.max(p))))
    }

    /// Whether a point is on the obstacle.
    pub(super) fn contains(&self, at: DVec2) -> bool {
        match self {
            Self::Convex(points) => is_in_convex(points, at),
            Self::Shadow(shadow) => shadow.contains(at),
        }
    }
}

/// Whether a point lies in a convex polygon, whichever way round it goes.
fn is_in_convex(polygon: &[DVec2], at: DVec2) -> bool {
    let next = polygon.iter().cycle().skip(1);
    let sides = polygon.iter().zip(next).map(|(a, b)| (*b - *a).perp_dot(at - *a));
    let (lo, hi) = sides.fold((0.0_f64, 0.0_f64), |(lo, hi), side| (lo.min(side), hi.max(side)));
    polygon.len() >= 3 && (lo >= -1e-9 || hi <= 1e-9)
}
