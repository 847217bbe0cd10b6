//! What there is to draw: the bay and its figures, in bay millimetres. Made again when the bay or the
//! routing changes, never per frame.

use std::sync::Arc;

use glam::{DVec2, DVec3};

use super::layout::background::edge;
pub use super::obstacle_mark::ObstacleMark;
use super::obstacle_mark::obstacle_on;
use crate::app::background::store::{Kind, kind_of};
use crate::app::canvas::camera::View;
use crate::app::words;
use crate::checks::{Finding, Severity};
use crate::engine::{EndSolution, RoutingSolution, RunSolution};
use crate::geom::{CentreLine, EndFrame, Homography, unit_or_x};
use crate::model::{Background, BackgroundEntry, Bay, Obstacle, Plane, Routing, Run, Via, name_or};
use crate::report::findings::Findings;
use crate::units::{EPS_MM, LengthUnit};

/// Everything to draw.
#[derive(Debug, Clone, Default)]
pub struct Scene {
    /// Seats.
    pub ports: Vec<PortMark>,
    /// The obstacles.
    pub obstacles: Vec<Arc<ObstacleMark>>,
    /// Hoses that could be solved.
    pub hoses: Vec<Arc<HoseMark>>,
    /// The hoses of another routing, to be seen behind.
    pub ghosts: Vec<Arc<HoseMark>>,
    /// What that routing is called in short: "B".
    pub ghost_of: Option<String>,
    /// Photos and outlines that are not hidden, the lowest first.
    pub backgrounds: Vec<BackgroundMark>,
    /// What was found, where it has a place.
    pub findings: Vec<FindingMark>,
    /// The unit of every figure.
    pub unit: LengthUnit,
    /// The box about it all; none for an empty bay.
    pub bounds: Option<(DVec3, DVec3)>,
    /// The same for every copy of a scene, and for no other one.
    identity: Arc<()>,
}

/// A photo or an outline.
#[derive(Debug, Clone)]
pub struct BackgroundMark {
    /// Its id.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Its file, as the bay names it.
    pub file: String,
    /// What the file is read as.
    pub(in crate::app) kind: Kind,
    /// The view it lies under.
    pub plane: Plane,
    /// How strongly it is drawn, 0 to 1.
    pub opacity: f64,
    /// From its pixels, or its drawing's units, to the plane of the view, mm.
    pub map: Homography,
    /// Width and height of a photo, pixels.
    pub size_px: Option<DVec2>,
    /// Its scale; of a straightened photo that in the middle.
    pub mm_per_pixel: f64,
}

/// A port.
#[derive(Debug, Clone)]
pub struct PortMark {
    /// Id of the port.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Name, shortened, and size.
    pub label: String,
    /// The whole name and size, for where there is room.
    pub whole_label: String,
    /// Its seat.
    pub at: DVec3,
    /// Unit vector the way a straight end's hose leaves.
    pub toward: DVec3,
    /// Radius of the tube it is named after (dash sixteenths of an inch); 0 where it has no size.
    pub radius_mm: f64,
}

/// A hose with its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseMark {
    /// Id of the run.
    pub run: String,
    /// Its name.
    pub name: String,
    /// Ids of its ports at A and B.
    pub ports: [String; 2],
    /// Half its outside diameter.
    pub half_mm: f64,
    /// Its drawn centre line.
    pub line: CentreLine,
    /// Fitting and socket at A and B.
    pub ends: [EndMark; 2],
    /// Where it bends tighter than it may: from and to, along the centre line.
    pub tight: Vec<(f64, f64)>,
    /// Corners and clamps, to be taken hold of.
    pub vias: Vec<ViaMark>,
    /// The installed shape, from the cut end at A to that at B; empty where that is not known.
    pub installed: Line,
    /// The same in every position, the one as drawn first; empty where its ends do not move.
    pub positions: Vec<Line>,
    /// The box about it as it is drawn and as installed, mm.
    bounds: (DVec3, DVec3),
    /// What it is drawn from.
    of: Arc<RunSolution>,
}

/// Points along a hose, mm.
type Line = Arc<Vec<DVec3>>;

/// An end fitting.
#[derive(Debug, Clone, PartialEq)]
pub struct EndMark {
    /// Its middle from the seat to the cut end.
    pub fitting: Vec<DVec3>,
    /// Hose gripped in the socket.
    pub socket_mm: f64,
}

/// A corner or a clamp.
#[derive(Debug, Clone, PartialEq)]
pub struct ViaMark {
    /// Place in `Run::via`.
    pub via: usize,
    /// "Corner 2", "Clamp 1".
    pub name: String,
    /// Its place.
    pub at: DVec3,
    /// What holds the hose, where it is a clamp.
    pub clamp: Option<Grip>,
}

/// How a clamp sits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grip {
    /// Unit vector through it.
    pub along: DVec3,
    /// Half the length it grips.
    pub half_grip_mm: f64,
}

/// Something found.
#[derive(Debug, Clone)]
pub struct FindingMark {
    /// Its place in the list of findings.
    pub index: usize,
    /// How bad.
    pub severity: Severity,
    /// Whether it is marked only while it is looked at: notes, and what comes of another finding.
    pub is_quiet: bool,
    /// Where.
    pub point: DVec3,
    /// The finding itself.
    pub of: Arc<Finding>,
}

/// A scene that was, and the bay that it was built of.
#[derive(Debug)]
pub struct Before {
    /// The scene.
    pub scene: Scene,
    /// Its bay.
    pub bay: Arc<Bay>,
}

/// The scene of one routing of a bay.
pub fn build(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: &[Arc<Finding>],
) -> Scene {
    build_on(bay, routing, solution, (findings, &Findings::default()), None)
}

/// [`build`]; what is as it was is taken over, with what has been calculated of it.
pub fn build_on(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    (findings, told): (&[Arc<Finding>], &Findings),
    before: Option<Before>,
) -> Scene {
    let unit = bay.show_units;
    let (was, mut old) = before.map(|before| (before.bay, before.scene)).unzip();
    let was = was.as_deref();
    let ports = match (was, &mut old) {
        (Some(was), Some(old)) if was.ports == bay.ports => std::mem::take(&mut old.ports),
        _ => bay.ports.iter().map(port).collect(),
    };
    // The mark of an obstacle names its group by its place.
    let known = was.filter(|was| was.groups == bay.groups).zip(old.as_ref());
    let mark = |(place, it): (usize, &Obstacle)| {
        let before = known
            .and_then(|(was, old)| Some((was.obstacles.get(place)?, old.obstacles.get(place)?)));
        match before {
            Some((was, mark)) if was == it => Arc::clone(mark),
            before => Arc::new(obstacle_on(bay, it, before.map(|(_, mark)| &**mark))),
        }
    };
    let obstacles = bay.obstacles.iter().enumerate().map(mark).collect();
    let mut scene = Scene {
        ports,
        obstacles,
        hoses: hoses_on(routing, solution, old.as_ref().map_or(&[], |old| &old.hoses)),
        ghosts: Vec::new(),
        ghost_of: None,
        backgrounds: bay
            .backgrounds
            .iter()
            .filter_map(BackgroundEntry::known)
            .filter_map(background)
            .collect(),
        findings: marks(findings, told),
        unit,
        bounds: None,
        identity: Arc::default(),
    };
    scene.bounds = bounds(&scene).or_else(|| bounds_of_backgrounds(&scene.backgrounds));
    scene
}

/// The hoses of a routing.
pub fn hoses_of(routing: &Routing, solution: &RoutingSolution) -> Vec<Arc<HoseMark>> {
    hoses_on(routing, solution, &[])
}

/// The hoses of a routing; of `old` those that are as they were, with what has been calculated of them.
fn hoses_on(
    routing: &Routing,
    solution: &RoutingSolution,
    old: &[Arc<HoseMark>],
) -> Vec<Arc<HoseMark>> {
    let mut hoses: Vec<Arc<HoseMark>> = Vec::with_capacity(routing.runs.len());
    for (i, (run, solved)) in routing.runs.iter().zip(&solution.runs).enumerate() {
        let Ok(solved) = solved else { continue };
        let installed =
            solution.lay_of(i).map(|lay| lay.installed.points.clone()).unwrap_or_default();
        let motion = solution.motion_of(i).filter(|(motion, _)| motion.rides);
        let positions = motion.map_or(&[][..], |(motion, _)| &motion.positions);
        let positions = positions.iter().map(|position| Arc::clone(&position.points)).collect();
        let known = old.get(hoses.len()).filter(|old| old.is_of(solved, &installed, &positions));
        hoses.push(match known {
            Some(known) => Arc::clone(known),
            None => Arc::new(HoseMark { installed, positions, ..hose(run, solved) }.bounded()),
        });
    }
    hoses
}

impl Scene {
    /// The same for every copy of this scene and for no other one, while it is held.
    pub fn identity(&self) -> &Arc<()> {
        &self.identity
    }

    /// The mark of a finding, by its place in the list.
    pub fn finding(&self, index: usize) -> Option<&FindingMark> {
        // They are in the order of the list.
        let place = self.findings.binary_search_by_key(&index, |mark| mark.index).ok()?;
        self.findings.get(place)
    }

    /// The box about one hose.
    pub fn bounds_of_run(&self, run: &str) -> Option<(DVec3, DVec3)> {
        let hose = self.hoses.iter().find(|hose| hose.run == run)?;
        let fat = DVec3::splat(hose.half_mm);
        let ends = hose.ends.iter().flat_map(|end| end.fitting.iter().copied());
        let points = hose.line.sampled(1.0).into_iter().chain(ends);
        points.fold(None, |found: Option<(DVec3, DVec3)>, p| {
            let (lo, hi) = found.unwrap_or((p, p));
            Some((lo.min(p - fat), hi.max(p + fat)))
        })
    }
}

fn background(background: &Background) -> Option<BackgroundMark> {
    let map = background.map().ok().filter(|_| !background.hidden)?;
    let size_px = background.size_px();
    let middle = size_px.unwrap_or(DVec2::ZERO) / 2.0;
    let step = |by: DVec2| Some(map.apply(middle + by)?.distance(map.apply(middle)?));
    Some(BackgroundMark {
        id: background.id.clone(),
        title: background.title().to_owned(),
        file: background.file.clone(),
        kind: kind_of(background),
        plane: background.plane,
        opacity: background.opacity,
        map,
        size_px,
        mm_per_pixel: step(DVec2::X).into_iter().chain(step(DVec2::Y)).fold(0.0, f64::max),
    })
}

/// The box about the photos, flat in the plane of each; where nothing else is drawn yet, it is they
/// that are shown.
fn bounds_of_backgrounds(marks: &[BackgroundMark]) -> Option<(DVec3, DVec3)> {
    let corners = |mark: &BackgroundMark| {
        let view = View::of(mark.plane);
        let corners = edge(&mark.map, mark.size_px?)?;
        Some(corners.map(|corner| view.with(DVec3::ZERO, corner)))
    };
    let mut points = marks.iter().filter_map(corners).flatten();
    let first = points.next()?;
    Some(points.fold((first, first), |(lo, hi), p| (lo.min(p), hi.max(p))))
}

fn port(port: &crate::model::Port) -> PortMark {
    let name = name_or(&port.name, &port.id);
    let sized = |name: &str| match port.dash {
        Some(dash) => format!("{name} {}", words::dash(dash)),
        None => name.to_owned(),
    };
    PortMark {
        id: port.id.clone(),
        label: sized(&words::short(name)),
        whole_label: sized(name),
        name: name.to_owned(),
        at: port.at,
        toward: unit_or_x(port.toward),
        radius_mm: port.dash.map_or(0.0, |dash| f64::from(dash) * 25.4 / 16.0 / 2.0),
    }
}

/// The box about nothing: it is not finite, and left out.
const NOWHERE: (DVec3, DVec3) = (DVec3::INFINITY, DVec3::NEG_INFINITY);

impl HoseMark {
    /// The box about it as it is drawn and as installed, mm; not finite where nothing is.
    pub fn bounds(&self) -> (DVec3, DVec3) {
        self.bounds
    }

    fn bounded(mut self) -> Self {
        let fat = DVec3::splat(self.half_mm);
        let points = self.line.sampled(1.0).into_iter().chain(self.installed.iter().copied());
        let finite = points.filter(|p| p.is_finite());
        let around = finite.fold(None, |found: Option<(DVec3, DVec3)>, p| {
            let (lo, hi) = found.unwrap_or((p, p));
            Some((lo.min(p - fat), hi.max(p + fat)))
        });
        self.bounds = around.unwrap_or(NOWHERE);
        self
    }

    /// Whether it is the mark of this solution, lying so: a run that was not measured again is one in
    /// memory with what it was.
    fn is_of(&self, solved: &Arc<RunSolution>, installed: &Line, positions: &Vec<Line>) -> bool {
        let is_same = |a: &Line, b: &Line| Arc::ptr_eq(a, b) || (a.is_empty() && b.is_empty());
        Arc::ptr_eq(&self.of, solved)
            && is_same(&self.installed, installed)
            && self.positions.len() == positions.len()
            && self.positions.iter().zip(positions).all(|(a, b)| is_same(a, b))
    }
}

fn hose(run: &Run, solved: &Arc<RunSolution>) -> HoseMark {
    HoseMark {
        bounds: NOWHERE,
        of: Arc::clone(solved),
        run: run.id.clone(),
        name: words::run_name(run).to_owned(),
        ports: [run.from.port.clone(), run.to.port.clone()],
        half_mm: solved.hose.outside_mm / 2.0,
        line: solved.centre_line.clone(),
        ends: [end(&solved.from), end(&solved.to)],
        tight: solved
            .bends()
            .iter()
            .filter(|bend| bend.radius_mm < solved.radius_limit_mm - EPS_MM)
            .map(|bend| {
                let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
                let half = half.max(solved.hose.outside_mm / 4.0);
                (bend.at_mm - half, bend.at_mm + half)
            })
            .collect(),
        vias: vias(run, solved),
        installed: Arc::default(),
        positions: Vec::new(),
    }
}

fn vias(run: &Run, solved: &RunSolution) -> Vec<ViaMark> {
    let (mut corners, mut clamps) = (0, 0);
    let mut marks = Vec::with_capacity(run.via.len());
    for (via, step) in run.via.iter().enumerate() {
        let (count, word, clamp) = match step {
            Via::Corner(_) => (&mut corners, "Corner", None),
            Via::Clamp(clamp) => {
                let solved = solved.clamps.iter().find(|c| c.via == via);
                let half = solved.map(|c| c.half_grip_mm).or(clamp.grip_mm.map(|grip| grip / 2.0));
                let along = unit_or_x(clamp.along);
                let grip = Grip { along, half_grip_mm: half.unwrap_or(0.0) };
                (&mut clamps, "Clamp", Some(grip))
            }
        };
        *count += 1;
        marks.push(ViaMark { via, name: format!("{word} {count}"), at: step.at(), clamp });
    }
    marks
}

fn end(end: &EndSolution) -> EndMark {
    EndMark { fitting: fitting(&end.frame), socket_mm: end.end.socket_mm }
}

/// The middle of a fitting: from the seat along the port's axis, round to the cut end.
fn fitting(frame: &EndFrame) -> Vec<DVec3> {
    const STEPS: u32 = 12;
    let (start, stop) = (frame.seat, frame.exit);
    if frame.toward.dot(frame.direction) > 1.0 - 1e-9 {
        return vec![start, stop];
    }
    let reach = 0.5 * start.distance(stop);
    let (a, b) = (start + reach * frame.toward, stop - reach * frame.direction);
    (0..=STEPS)
        .map(|k| {
            let t = f64::from(k) / f64::from(STEPS);
            let u = 1.0 - t;
            u * u * u * start + 3.0 * u * u * t * a + 3.0 * u * t * t * b + t * t * t * stop
        })
        .collect()
}

fn marks(findings: &[Arc<Finding>], told: &Findings) -> Vec<FindingMark> {
    let consequences = told.consequences();
    let mark = |(index, of): (usize, &Arc<Finding>)| {
        let is_quiet = of.severity == Severity::Note || consequences.contains(&index);
        let (severity, of) = (of.severity, Arc::clone(of));
        Some(FindingMark { index, severity, is_quiet, point: of.point?, of })
    };
    findings.iter().enumerate().filter_map(mark).collect()
}

fn bounds(scene: &Scene) -> Option<(DVec3, DVec3)> {
    let mut found: Option<(DVec3, DVec3)> = None;
    let mut take = |lo: DVec3, hi: DVec3| {
        if lo.is_finite() && hi.is_finite() {
            let (min, max) = found.unwrap_or((lo, hi));
            found = Some((min.min(lo), max.max(hi)));
        }
    };
    for obstacle in &scene.obstacles {
        let (lo, hi) = obstacle.shape.bounds();
        take(lo, hi);
    }
    for port in &scene.ports {
        take(port.at, port.at);
    }
    for hose in &scene.hoses {
        take(hose.bounds.0, hose.bounds.1);
    }
    found
}
