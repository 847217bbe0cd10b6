//! Where everything is on the screen, and what is under a point of it. Pure and in f64; only
//! painting knows of pixels and colours.

pub mod axes;
pub mod background;
mod depth;
mod follow;
mod grid;
mod hit;
mod hose;
mod label;
mod markers;
mod moved;
mod names;
mod obstacle_name;
mod room;
mod swept;
mod under;
mod whole;

pub use background::{Net, net};
pub use depth::{Behind, IN_FRONT, STEPS};
pub use grid::{Grid, ScaleBar, grid_step_mm};
pub use hit::Open;
pub use hose::{Band, BandKind, HoseLine};
pub use label::Naming;
pub use moved::moved_obstacles;
pub use names::{Label, Named};
pub use under::pointed;

use std::sync::Arc;

use glam::{DVec2, DVec3};

use super::camera::{Area, Camera, View};
use super::outline::Outline;
use super::scene::{HoseMark, ObstacleMark, PortMark, Scene, ViaMark};
use super::thing::Thing;
use crate::checks::Severity;
use crate::model::Nature;

/// One view, laid out. Places are screen points, Y down.
#[derive(Debug, Clone)]
pub struct ViewLayout {
    /// Which view.
    pub view: View,
    /// Where it is.
    pub area: Area,
    /// How it looks.
    pub camera: Camera,
    /// Grid lines.
    pub grid: Grid,
    /// Its scale.
    pub scale_bar: ScaleBar,
    /// Obstacles, farthest from the viewer first.
    pub obstacles: Vec<Arc<ObstacleShape>>,
    /// Hoses, in the order of the scene.
    pub hoses: Vec<HoseLine>,
    /// Pieces of hoses, farthest from the viewer first.
    pub bands: Vec<Arc<Band>>,
    /// The installed shapes, where that is known.
    pub installed: Vec<Arc<InstalledLine>>,
    /// Middle lines of another routing's hoses, to be seen behind.
    pub ghosts: Vec<Vec<DVec2>>,
    /// Ports.
    pub ports: Vec<PortShape>,
    /// Corners and clamps of all hoses.
    pub vias: Vec<ViaShape>,
    /// Findings.
    pub markers: Vec<Marker>,
    /// Names.
    pub labels: Vec<Label>,
    /// What of the scene it was made of.
    made_of: (Vec<Arc<ObstacleMark>>, Vec<Arc<HoseMark>>),
}

/// An obstacle on the screen.
#[derive(Debug, Clone)]
pub struct ObstacleShape {
    /// Its place in the scene.
    pub index: usize,
    /// What it does to a hose.
    pub nature: Nature,
    /// Its outline, screen points; convex ones clockwise as the screen has Y down.
    pub outline: Outline,
    /// The lines at its minimum clearance distance.
    pub min_clearance: Vec<Vec<DVec2>>,
    /// The area about its outline.
    pub about: Area,
    /// How near the viewer its nearest place is, mm.
    pub depth: f64,
}

/// A port on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct PortShape {
    /// Its place in the scene.
    pub index: usize,
    /// Its seat.
    pub at: DVec2,
    /// Its radius.
    pub radius: f64,
    /// The way the hose leaves, as it looks from here: shorter where it points at the viewer.
    pub toward: DVec2,
    /// Whether it points at the viewer, where it does so more than sideways.
    pub faces_viewer: Option<bool>,
    /// How near the viewer, mm.
    pub depth: f64,
}

/// A corner or a clamp on the screen.
#[derive(Debug, Clone)]
pub struct ViaShape {
    /// Which.
    pub thing: Thing,
    /// Its name with its hose's.
    pub name: String,
    /// Its place.
    pub at: DVec2,
    /// How near the viewer, mm.
    pub depth: f64,
    /// A clamp's bar: half the bar across the hose, and half the length it grips along it.
    pub clamp: Option<[DVec2; 2]>,
}

/// The installed shape of a hose, on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct InstalledLine {
    /// Place of the hose in the scene.
    pub hose: usize,
    /// Its middle line.
    pub points: Vec<DVec2>,
    /// Half its width.
    pub half: f64,
    /// Its middle line in every position, point by point as in `points`.
    pub positions: Vec<Vec<DVec2>>,
}

/// A finding on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Marker {
    /// Its place in the list of findings.
    pub finding: usize,
    /// How bad.
    pub severity: Severity,
    /// The place it speaks of.
    pub place: DVec2,
    /// Where it is marked: there, or beside what can be taken hold of there.
    pub at: DVec2,
    /// Whether it is seen only while it is looked at: what is quiet, and what lies beside a worse one.
    pub is_hidden: bool,
    /// How many are hidden beside it.
    pub beside: usize,
}

impl Marker {
    /// Whether it is shown.
    pub fn is_shown(&self, looked_at: Option<usize>) -> bool {
        !self.is_hidden || looked_at == Some(self.finding)
    }
}

/// A port is drawn no smaller than this, points; it can be taken hold of some way beside it.
pub const PORT_RADIUS: f64 = 4.5;
/// Radius of a finding's mark with the paper about it, points.
pub const MARKER_RADIUS: f64 = 6.0;
/// Radius of a corner's mark, points.
const CORNER_RADIUS: f64 = 5.0;

/// Lays out one view.
pub fn lay_out(
    scene: &Scene,
    view: View,
    area: Area,
    camera: Camera,
    naming: &Naming<'_>,
) -> ViewLayout {
    let mut layout = place(scene, view, area, camera, None);
    layout.labels = name(scene, &layout, naming);
    layout
}

/// Lays out everything of a view but its names. The answer does not depend on `old`: it only saves
/// the work for what is as it was there.
pub fn place(
    scene: &Scene,
    view: View,
    area: Area,
    camera: Camera,
    old: Option<&ViewLayout>,
) -> ViewLayout {
    let place = Placing { view, area, camera };
    let old = old.filter(|old| (old.view, old.area, old.camera) == (view, area, camera));
    let vias = scene.hoses.iter().flat_map(|hose| {
        let vias = hose.vias.iter();
        vias.map(|mark| via(&hose.run, &hose.name, hose.half_mm, mark, &place))
    });
    let mut layout = ViewLayout {
        view,
        area,
        camera,
        grid: grid::lay_out(area, camera, scene.unit),
        scale_bar: grid::scale_bar(camera, scene.unit),
        obstacles: obstacles(scene, &place, old),
        hoses: Vec::with_capacity(scene.hoses.len()),
        bands: Vec::new(),
        installed: installed(scene, &place, old),
        ghosts: scene.ghosts.iter().map(|mark| hose::middle_line(mark, &place)).collect(),
        ports: scene.ports.iter().enumerate().map(|(i, p)| port(i, p, &place)).collect(),
        vias: vias.collect(),
        markers: Vec::new(),
        labels: Vec::new(),
        made_of: (scene.obstacles.clone(), scene.hoses.clone()),
    };
    let grips = markers::Grips::of(&layout);
    layout.markers = markers::markers(&scene.findings, &place, &grips);
    hoses(scene, &place, old, &mut layout);
    layout
}

/// Names what is in a view that has been [`place`]d.
pub fn name(scene: &Scene, layout: &ViewLayout, naming: &Naming<'_>) -> Vec<Label> {
    label::lay_out(scene, layout, naming)
}

/// [`name`] while something is moved: names of what stays where it was in `before` stay too.
pub fn name_on(
    scene: &Scene,
    layout: &ViewLayout,
    naming: &Naming<'_>,
    before: &ViewLayout,
) -> Vec<Label> {
    follow::follow(scene, layout, naming, before)
}

fn hoses(scene: &Scene, place: &Placing, old: Option<&ViewLayout>, layout: &mut ViewLayout) {
    let is_kept = |index: usize| {
        let before = old.and_then(|old| old.made_of.1.get(index));
        before.zip(scene.hoses.get(index)).is_some_and(|(before, now)| Arc::ptr_eq(before, now))
    };
    let kept: Vec<bool> = (0..scene.hoses.len()).map(is_kept).collect();
    let stays = |band: &&Arc<Band>| kept.get(band.hose) == Some(&true);
    // In their old order first: what is new is then quickly sorted in.
    layout.bands.extend(old.map_or(&[][..], |old| &old.bands).iter().filter(stays).cloned());
    for (index, hose) in scene.hoses.iter().enumerate() {
        if let (true, Some(old)) = (kept[index], old) {
            layout.hoses.push(old.hoses[index].clone());
        } else {
            let mut bands = Vec::new();
            layout.hoses.push(hose::lay_out(index, hose, place, &mut bands));
            layout.bands.extend(bands.into_iter().map(Arc::new));
        }
    }
    // The same order whether they were kept or not.
    layout.bands.sort_by(|a, b| {
        a.depth.total_cmp(&b.depth).then((a.hose, a.place).cmp(&(b.hose, b.place)))
    });
}

fn installed(scene: &Scene, place: &Placing, old: Option<&ViewLayout>) -> Vec<Arc<InstalledLine>> {
    let kept = |index: usize, hose: &Arc<HoseMark>| {
        let old =
            old.filter(|old| old.made_of.1.get(index).is_some_and(|o| Arc::ptr_eq(o, hose)))?;
        old.installed.iter().find(|installed| installed.hose == index).cloned()
    };
    let flat = |points: &[DVec3]| points.iter().map(|p| place.point(*p)).collect::<Vec<_>>();
    let known = scene.hoses.iter().enumerate().filter(|(_, hose)| hose.installed.len() > 1);
    known
        .map(|(index, hose)| {
            kept(index, hose).unwrap_or_else(|| {
                Arc::new(InstalledLine {
                    hose: index,
                    points: flat(&hose.installed),
                    half: place.length(hose.half_mm),
                    positions: hose.positions.iter().map(|position| flat(position)).collect(),
                })
            })
        })
        .collect()
}

/// From the bay to one view's screen.
pub(super) struct Placing {
    pub(super) view: View,
    pub(super) area: Area,
    pub(super) camera: Camera,
}

impl Placing {
    pub(super) fn point(&self, p: DVec3) -> DVec2 {
        self.flat(self.view.project(p))
    }

    pub(super) fn flat(&self, p: DVec2) -> DVec2 {
        self.camera.to_screen(self.area, p)
    }

    pub(super) fn direction(&self, d: DVec3) -> DVec2 {
        let flat = self.view.project(d);
        DVec2::new(flat.x, -flat.y)
    }

    pub(super) fn length(&self, mm: f64) -> f64 {
        mm * self.camera.points_per_mm
    }
}

fn obstacles(scene: &Scene, place: &Placing, old: Option<&ViewLayout>) -> Vec<Arc<ObstacleShape>> {
    let mut order: Vec<(usize, &Arc<ObstacleMark>)> = scene.obstacles.iter().enumerate().collect();
    order.sort_by_cached_key(|(_, obstacle)| Depth(nearest(obstacle, place.view)));
    let mut kept: Vec<Option<&Arc<ObstacleShape>>> = vec![None; scene.obstacles.len()];
    if let Some(old) = old {
        for shape in &old.obstacles {
            let same = |new| Arc::ptr_eq(new, &old.made_of.0[shape.index]);
            if scene.obstacles.get(shape.index).is_some_and(same) {
                kept[shape.index] = Some(shape);
            }
        }
    }
    let shape = |(index, obstacle): (usize, &Arc<ObstacleMark>)| match kept[index] {
        Some(shape) => Arc::clone(shape),
        None => Arc::new(obstacle_shape(index, obstacle, place)),
    };
    order.into_iter().map(shape).collect()
}

/// How near the viewer the nearest place of an obstacle is, mm.
fn nearest(obstacle: &ObstacleMark, view: View) -> f64 {
    let (lo, hi) = obstacle.shape.bounds();
    view.depth(lo).max(view.depth(hi))
}

/// A number to sort by.
struct Depth(f64);

impl PartialEq for Depth {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Depth {}

impl PartialOrd for Depth {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Depth {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

fn obstacle_shape(index: usize, obstacle: &ObstacleMark, place: &Placing) -> ObstacleShape {
    let (outline, min_clearance) = obstacle.outlined(place.view);
    let line = |line: &Vec<DVec2>| simpler(line.iter().map(|p| place.flat(*p)));
    let outline = match outline.mapped(&|p| place.flat(p)) {
        Outline::Convex(points) => Outline::Convex(simpler(points.into_iter())),
        shadow @ Outline::Shadow(_) => shadow,
    };
    let (min, max) = outline.extent().unwrap_or_default();
    ObstacleShape {
        index,
        nature: obstacle.nature,
        outline,
        min_clearance: if obstacle.nature == Nature::Plain
            && place.length(obstacle.min_clearance_mm) < LEAST_CLEARANCE
        {
            Vec::new()
        } else {
            min_clearance.iter().map(line).collect()
        },
        about: Area { min, max },
        depth: nearest(obstacle, place.view),
    }
}

/// Without the points that are nearly on the way between their neighbours: a small circle needs few.
pub(in crate::app::canvas) fn simpler(points: impl Iterator<Item = DVec2>) -> Vec<DVec2> {
    let mut kept: Vec<DVec2> = Vec::new();
    let mut skipped: Vec<DVec2> = Vec::new();
    for p in points {
        let straight = kept.last().is_some_and(|from| {
            let along = p - *from;
            let length = along.length();
            let off = |q: &DVec2| (*q - *from).perp_dot(along).abs() / length;
            let on_way = |q: &DVec2| (*q - *from).dot(along) <= length * length;
            length > 0.0 && skipped.iter().all(|q| off(q) < SIMPLER && on_way(q))
        });
        if !straight {
            kept.extend(skipped.last());
            skipped.clear();
        }
        if kept.is_empty() {
            kept.push(p);
        } else {
            skipped.push(p);
        }
    }
    kept.extend(skipped.last());
    kept
}

/// A line at the minimum clearance that would stand nearer to a plain obstacle than this, points, is left out: it
/// would be no more than a second edge.
const LEAST_CLEARANCE: f64 = 4.0;

/// How far a simpler line may stray, points.
const SIMPLER: f64 = 0.2;

impl ObstacleShape {
    /// Whether a point is on the obstacle.
    pub fn contains(&self, at: DVec2) -> bool {
        self.about.contains(at) && self.outline.contains(at)
    }
}

fn port(index: usize, port: &PortMark, place: &Placing) -> PortShape {
    let toward = place.direction(port.toward);
    let depth = place.view.depth(port.toward);
    PortShape {
        index,
        at: place.point(port.at),
        radius: place.length(port.radius_mm).clamp(PORT_RADIUS, 40.0),
        toward,
        faces_viewer: (toward.length() < 0.5).then_some(depth > 0.0),
        depth: place.view.depth(port.at),
    }
}

fn via(run: &str, hose: &str, half_mm: f64, mark: &ViaMark, place: &Placing) -> ViaShape {
    let clamp = mark.clamp.map(|grip| {
        let along = place.direction(grip.along);
        let across = along.perp().normalize_or(DVec2::Y) * (place.length(half_mm) + 5.0);
        let half_grip = along * place.length(grip.half_grip_mm).max(2.5);
        [across, half_grip]
    });
    ViaShape {
        thing: Thing::Via { run: run.to_owned(), via: mark.via },
        name: format!("{} of {hose}", mark.name),
        at: place.point(mark.at),
        depth: place.view.depth(mark.at),
        clamp,
    }
}

impl ViaShape {
    /// Whether its mark is shown: clamps always are, corners on the selected hose.
    pub fn is_shown(&self, run: Option<&str>) -> bool {
        self.clamp.is_some() || (run.is_some() && self.thing.run() == run)
    }

    /// Radius of its mark, points.
    pub fn radius(&self) -> f64 {
        let half = |[across, along]: [DVec2; 2]| across.length().max(along.length());
        self.clamp.map_or(CORNER_RADIUS, half).clamp(CORNER_RADIUS, 9.5)
    }
}

impl ViewLayout {
    /// The hose under a point of the screen, the nearest to the viewer first: its place in the
    /// scene and how far along its centre line.
    pub fn hose_at(&self, at: DVec2) -> Option<(usize, f64)> {
        const REACH: f64 = 5.0;
        self.hose_within(at, REACH)
    }

    /// The same for one that runs so near, points.
    pub fn hose_within(&self, at: DVec2, reach: f64) -> Option<(usize, f64)> {
        self.bands.iter().rev().find_map(|band| {
            let reach = band.half.max(reach);
            if !band.about.grown(reach).contains(at) {
                return None;
            }
            let (distance, mm) = band.nearest(at)?;
            (distance <= reach).then_some((band.hose, mm))
        })
    }
}

#[cfg(test)]
mod name_properties;
#[cfg(test)]
mod tests;
