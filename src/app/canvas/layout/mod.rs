//! Where everything is on the screen, and what is under a point of it. Pure and in f64; only
//! painting knows of pixels and colours.

mod grid;
mod hit;
mod hose;
mod label;
mod room;
mod underlay;

pub use grid::{Grid, ScaleBar, grid_step_mm};
pub use hit::{Hit, Open};
pub use hose::{Band, BandKind, HoseLine};
pub use label::{Label, Naming};
pub use underlay::{Net, edge, net};

use glam::{DVec2, DVec3};

use super::camera::{Area, Camera, View};
use super::outline::{self, Outline};
use super::scene::{FindingMark, PortMark, Scene, SolidMark, ViaMark};
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
    /// Solids, farthest from the viewer first.
    pub solids: Vec<SolidShape>,
    /// Hoses, in the order of the scene.
    pub hoses: Vec<HoseLine>,
    /// Pieces of hoses, farthest from the viewer first.
    pub bands: Vec<Band>,
    /// Ports.
    pub ports: Vec<PortShape>,
    /// Corners and clamps of all hoses.
    pub vias: Vec<ViaShape>,
    /// Findings.
    pub markers: Vec<Marker>,
    /// Names.
    pub labels: Vec<Label>,
}

/// A solid on the screen.
#[derive(Debug, Clone)]
pub struct SolidShape {
    /// Its place in the scene.
    pub index: usize,
    /// Why to keep off.
    pub nature: Nature,
    /// Its outline, screen points; convex ones clockwise as the screen has Y down.
    pub outline: Outline,
    /// The border at its keep-off distance, where the outline is convex.
    pub keep_off: Vec<DVec2>,
    /// The keep-off distance, points.
    pub keep_off_points: f64,
}

/// A port on the screen.
#[derive(Debug, Clone)]
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

/// A finding on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Marker {
    /// Its place in the list of findings.
    pub finding: usize,
    /// How bad.
    pub severity: Severity,
    /// Where it is marked.
    pub at: DVec2,
}

/// What can be taken hold of is never smaller than this, points.
pub const PORT_RADIUS: f64 = 6.5;

/// Lays out one view.
pub fn lay_out(
    scene: &Scene,
    view: View,
    area: Area,
    camera: Camera,
    naming: &Naming<'_>,
) -> ViewLayout {
    let place = Placing { view, area, camera };
    let mut layout = ViewLayout {
        view,
        area,
        camera,
        grid: grid::lay_out(area, camera, scene.unit),
        scale_bar: grid::scale_bar(camera, scene.unit),
        solids: solids(scene, &place),
        hoses: Vec::with_capacity(scene.hoses.len()),
        bands: Vec::new(),
        ports: scene.ports.iter().enumerate().map(|(i, p)| port(i, p, &place)).collect(),
        vias: scene
            .hoses
            .iter()
            .flat_map(|hose| {
                let place = &place;
                hose.vias
                    .iter()
                    .map(move |mark| via(&hose.run, &hose.name, hose.half_mm, mark, place))
            })
            .collect(),
        markers: markers(&scene.findings, &place),
        labels: Vec::new(),
    };
    for (index, hose) in scene.hoses.iter().enumerate() {
        let line = hose::lay_out(index, hose, &place, &mut layout.bands);
        layout.hoses.push(line);
    }
    layout.bands.sort_by(|a, b| a.depth.total_cmp(&b.depth));
    layout.labels = label::lay_out(scene, &layout, naming);
    layout
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

fn solids(scene: &Scene, place: &Placing) -> Vec<SolidShape> {
    let mut order: Vec<(usize, &SolidMark)> = scene.solids.iter().enumerate().collect();
    let nearest = |solid: &SolidMark| {
        let (lo, hi) = solid.shape.bounds();
        place.view.depth(lo).max(place.view.depth(hi))
    };
    order.sort_by(|a, b| nearest(a.1).total_cmp(&nearest(b.1)));
    order.into_iter().map(|(index, solid)| solid_shape(index, solid, place)).collect()
}

fn solid_shape(index: usize, solid: &SolidMark, place: &Placing) -> SolidShape {
    let to_screen = |points: &[DVec2]| points.iter().map(|p| place.flat(*p)).collect::<Vec<_>>();
    let (outline, keep_off) = match outline::outline(place.view, &solid.shape) {
        Outline::Convex(points) => {
            let border = if solid.keep_off_mm > 0.0 {
                to_screen(&outline::offset_convex(&points, solid.keep_off_mm))
            } else {
                Vec::new()
            };
            (Outline::Convex(to_screen(&points)), border)
        }
        Outline::Triangles { triangles, edges } => {
            let triangles = triangles.into_iter().map(|t| t.map(|p| place.flat(p))).collect();
            let edges = edges.into_iter().map(|e| e.map(|p| place.flat(p))).collect();
            (Outline::Triangles { triangles, edges }, Vec::new())
        }
    };
    SolidShape {
        index,
        nature: solid.nature,
        outline,
        keep_off,
        keep_off_points: place.length(solid.keep_off_mm),
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
    }
}

fn via(run: &str, hose: &str, half_mm: f64, mark: &ViaMark, place: &Placing) -> ViaShape {
    let clamp = mark.clamp.map(|grip| {
        let along = place.direction(grip.along);
        let across = along.perp().normalize_or(DVec2::Y) * (place.length(half_mm) + 5.0);
        let half_grip = along * place.length(grip.half_width_mm).max(2.5);
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

/// Findings of one place stand beside each other, worst first.
fn markers(findings: &[FindingMark], place: &Placing) -> Vec<Marker> {
    const STEP: f64 = 15.0;
    let mut order: Vec<&FindingMark> = findings.iter().collect();
    order.sort_by_key(|f| (f.severity, f.index));
    let mut found: Vec<Marker> = Vec::with_capacity(order.len());
    for mark in order {
        let mut at = place.point(mark.point);
        while found.iter().any(|other| other.at.distance(at) < STEP - 1.0) {
            at.x += STEP;
        }
        found.push(Marker { finding: mark.index, severity: mark.severity, at });
    }
    found
}

impl ViewLayout {
    /// The hose under a point of the screen, the nearest to the viewer first: its place in the
    /// scene and how far along its centre line.
    pub fn hose_at(&self, at: DVec2) -> Option<(usize, f64)> {
        const REACH: f64 = 5.0;
        self.bands.iter().rev().find_map(|band| {
            let (distance, mm) = band.nearest(at)?;
            (distance <= band.half.max(REACH)).then_some((band.hose, mm))
        })
    }
}

#[cfg(test)]
mod tests;
