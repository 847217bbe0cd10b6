//! The turning view laid out: a picture of what is in front at each point, and the lines over it
//! that are in sight. Pure; only painting knows colours.

use glam::{DVec2, DVec3};

use super::super::camera::Area;
use super::super::outline;
use super::super::scene::{HoseMark, ObstacleMark, Scene};
use super::camera::{Basis, TurnCamera};
use super::raster::{Corner, Raster, Seen};
use super::tube::{self, Station, Stretch, Tube};
use crate::geom::hull;

/// What a thing in the picture belongs to, by its place in the scene.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Of {
    /// An obstacle.
    Obstacle(usize),
    /// A hose.
    Hose(usize),
}

/// A thing in the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Item {
    /// What it belongs to.
    pub of: Of,
    /// What part of a hose it is.
    pub stretch: Option<Stretch>,
}

/// A line in sight, screen points.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it bounds.
    pub of: Of,
    /// What part of a hose.
    pub stretch: Option<Stretch>,
    /// Its points.
    pub points: Vec<DVec2>,
}

/// A port on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PortSpot {
    /// Its place in the scene.
    pub index: usize,
    /// Where.
    pub at: DVec2,
    /// The way the hose leaves, as it looks from here.
    pub toward: DVec2,
    /// How near the viewer, mm.
    pub depth: f64,
    /// Whether nothing stands before it.
    pub is_in_sight: bool,
}

/// The turning view, laid out.
#[derive(Debug, Clone, Default)]
pub struct Picture {
    area: Area,
    pixels_per_point: f64,
    camera: TurnCamera,
    /// What is in front.
    pub raster: Raster,
    /// What the numbers of the raster stand for.
    pub items: Vec<Item>,
    /// Outlines and edges in sight.
    pub lines: Vec<Line>,
    /// Ports.
    pub ports: Vec<PortSpot>,
    /// Middle lines of other routings, behind all.
    pub ghosts: Vec<Vec<DVec2>>,
    /// About each obstacle that is to be kept off, by its place in the scene, the line at that distance.
    pub min_clearance: Vec<(usize, Vec<DVec2>)>,
    /// Grows with every drawing.
    pub count: u64,
    /// Of every tube but clamps, by hose and tube.
    stations: Vec<([usize; 2], Station)>,
}

/// Bends stray from the true ones by no more than this, points.
const ACCURACY: f64 = 0.2;
/// Lines are looked at for what hides them this often, points.
const LOOK: f64 = 2.0;
/// Lines lie on their surfaces: they are not hidden by what is nearer by less than this, mm.
const SLACK_MM: f64 = 1.5;
/// The most points a picture has: past it, it is drawn coarser.
const MOST_PIXELS: f64 = 3.0e6;

/// Where a picture is drawn from.
struct Eye {
    basis: Basis,
    camera: TurnCamera,
    area: Area,
    per_point: f64,
    light: DVec3,
}

impl Eye {
    fn depth(&self, p: DVec3) -> f64 {
        (p - self.camera.centre).dot(self.basis.to_viewer)
    }

    fn screen(&self, p: DVec3) -> DVec2 {
        let off = p - self.camera.centre;
        let flat = DVec2::new(off.dot(self.basis.right), -off.dot(self.basis.up));
        self.area.centre() + flat * self.camera.points_per_mm
    }

    fn corner(&self, p: DVec3, normal: DVec3) -> Corner {
        let at = (self.screen(p) - self.area.min) * self.per_point;
        let light = normal.dot(self.light).max(0.0);
        Corner { at, depth: self.depth(p), light: (0.3 + 0.7 * light).clamp(0.0, 1.0) }
    }
}

impl Picture {
    /// Draws the scene again, in the memory of what was drawn before.
    pub fn draw(&mut self, scene: &Scene, camera: TurnCamera, area: Area, pixels_per_point: f64) {
        let wanted = area.size().max(DVec2::ONE) * pixels_per_point;
        let coarser = (MOST_PIXELS / wanted.element_product()).sqrt().min(1.0);
        self.pixels_per_point = pixels_per_point * coarser;
        (self.area, self.camera) = (area, camera);
        let size = (area.size().max(DVec2::ONE) * self.pixels_per_point).round();
        self.raster.clear(size.x as usize, size.y as usize);
        self.items.clear();
        self.lines.clear();
        self.stations.clear();
        let basis = camera.basis();
        // Over the left shoulder.
        let light = (basis.to_viewer + 0.7 * basis.up - 0.45 * basis.right).normalize_or(DVec3::Z);
        let eye = Eye { basis, camera, area, per_point: self.pixels_per_point, light };
        let accuracy = ACCURACY / camera.points_per_mm;
        let tubes: Vec<Vec<Tube>> =
            scene.hoses.iter().map(|hose| tube::tubes(hose, accuracy)).collect();
        for (index, obstacle) in scene.obstacles.iter().enumerate() {
            self.fill_obstacle(&eye, index, obstacle);
        }
        for (index, tubes) in tubes.iter().enumerate() {
            for tube in tubes {
                self.fill_tube(&eye, index, tube);
            }
        }
        for (index, obstacle) in scene.obstacles.iter().enumerate() {
            self.obstacle_lines(&eye, index, obstacle);
        }
        for (index, tubes) in tubes.iter().enumerate() {
            for (part, tube) in tubes.iter().enumerate() {
                self.tube_lines(&eye, index, tube);
                if tube.stretch != Stretch::Clamp {
                    let stations = tube.stations.iter();
                    self.stations.extend(stations.map(|station| ([index, part], *station)));
                }
            }
        }
        for (index, hose) in scene.hoses.iter().enumerate() {
            self.line(&eye, Of::Hose(index), Some(Stretch::Installed), &hose.installed);
        }
        self.ports = scene.ports.iter().enumerate().map(|(i, p)| self.port(&eye, i, p)).collect();
        let ghost = |hose: &HoseMark| {
            hose.line.sampled(accuracy).into_iter().map(|p| eye.screen(p)).collect()
        };
        let obstacles = scene.obstacles.iter().enumerate();
        self.min_clearance =
            obstacles.filter_map(|(i, s)| Some((i, min_clearance(&eye, s)?))).collect();
        self.count += 1;
        self.ghosts = scene.ghosts.iter().map(|hose| ghost(hose)).collect();
    }

    fn item(&mut self, of: Of, stretch: Option<Stretch>) -> u32 {
        self.items.push(Item { of, stretch });
        self.items.len() as u32 - 1
    }

    fn fill_obstacle(&mut self, eye: &Eye, index: usize, obstacle: &ObstacleMark) {
        let item = self.item(Of::Obstacle(index), None);
        let surface = obstacle.surface();
        for facet in &surface.facets {
            let [a, b, c] = facet.corners;
            let faces = (b - a).cross(c - a).dot(eye.basis.to_viewer);
            if surface.is_closed && faces <= 0.0 {
                continue;
            }
            // The inside of an open mesh is lit like its outside.
            let side = if faces < 0.0 { -1.0 } else { 1.0 };
            let corner = |k: usize| eye.corner(facet.corners[k], facet.normals[k] * side);
            self.raster.triangle(item, [corner(0), corner(1), corner(2)]);
        }
    }

    fn fill_tube(&mut self, eye: &Eye, index: usize, tube: &Tube) {
        let item = self.item(Of::Hose(index), Some(tube.stretch));
        let radius = drawn_radius(eye, tube);
        let sides = match radius * eye.camera.points_per_mm {
            r if r < 4.0 => 8,
            r if r < 12.0 => 14,
            _ => 28,
        };
        let rings = tube::rings(&tube.stations, sides);
        let rows: Vec<Vec<(Corner, bool)>> = tube
            .stations
            .iter()
            .zip(&rings)
            .map(|(station, ring)| {
                let on_ring = |d: &DVec3| {
                    let corner = eye.corner(station.at + *d * radius, *d);
                    (corner, d.dot(eye.basis.to_viewer) > 0.0)
                };
                ring.iter().map(on_ring).collect()
            })
            .collect();
        for pair in rows.windows(2) {
            for k in 0..pair[0].len() {
                let next = (k + 1) % pair[0].len();
                let quad = [pair[0][k], pair[0][next], pair[1][next], pair[1][k]];
                if quad.iter().any(|(_, faces)| *faces) {
                    let [a, b, c, d] = quad.map(|(corner, _)| corner);
                    self.raster.triangle(item, [a, b, c]);
                    self.raster.triangle(item, [a, c, d]);
                }
            }
        }
        self.fill_lid(eye, item, &rows, &tube.stations, true);
        self.fill_lid(eye, item, &rows, &tube.stations, false);
    }

    /// The flat end of a tube, where it faces the viewer.
    fn fill_lid(
        &mut self,
        eye: &Eye,
        item: u32,
        rows: &[Vec<(Corner, bool)>],
        stations: &[Station],
        is_start: bool,
    ) {
        let (row, station, sign) = if is_start {
            (rows.first(), stations.first(), -1.0)
        } else {
            (rows.last(), stations.last(), 1.0)
        };
        let (Some(row), Some(station)) = (row, station) else { return };
        let normal = station.along * sign;
        if normal.dot(eye.basis.to_viewer) <= 0.0 {
            return;
        }
        let middle = eye.corner(station.at, normal);
        for k in 0..row.len() {
            let flat = |i: usize| Corner { light: middle.light, ..row[i % row.len()].0 };
            self.raster.triangle(item, [middle, flat(k), flat(k + 1)]);
        }
    }

    fn obstacle_lines(&mut self, eye: &Eye, index: usize, obstacle: &ObstacleMark) {
        let surface = obstacle.surface();
        let of = Of::Obstacle(index);
        if let Some((at, radius)) = surface.ball {
            let round = (0..=64_u32).map(|k| {
                let d = DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / 64.0);
                at + radius * (d.x * eye.basis.right + d.y * eye.basis.up)
            });
            self.line(eye, of, None, &round.collect::<Vec<_>>());
            return;
        }
        for edge in &surface.edges {
            if edge.is_drawn(eye.basis.to_viewer, surface.is_closed) {
                self.line(eye, of, None, &edge.ends);
            }
        }
    }

    /// Both outlines of a tube, and its ends.
    fn tube_lines(&mut self, eye: &Eye, index: usize, tube: &Tube) {
        let radius = drawn_radius(eye, tube);
        let of = Of::Hose(index);
        for side in [1.0, -1.0] {
            let mut run: Vec<DVec3> = Vec::new();
            let mut last: Option<DVec3> = None;
            for station in &tube.stations {
                let across = station.along.cross(eye.basis.to_viewer);
                let turns_over = last.is_some_and(|last| last.dot(across) < 0.0);
                if across.length() < 0.06 || turns_over {
                    self.line(eye, of, Some(tube.stretch), &std::mem::take(&mut run));
                }
                last = Some(across);
                if across.length() >= 0.06 {
                    run.push(station.at + across.normalize_or_zero() * radius * side);
                }
            }
            self.line(eye, of, Some(tube.stretch), &run);
        }
        if !matches!(tube.stretch, Stretch::Hose | Stretch::Tight) {
            for station in [tube.stations.first(), tube.stations.last()].into_iter().flatten() {
                let (a, b) = station.along.any_orthonormal_pair();
                let rim = (0..=24_u32).map(|k| {
                    let d = DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / 24.0);
                    station.at + radius * (d.x * a + d.y * b)
                });
                self.line(eye, of, Some(tube.stretch), &rim.collect::<Vec<_>>());
            }
        }
    }

    /// Enters what of a line is in sight.
    fn line(&mut self, eye: &Eye, of: Of, stretch: Option<Stretch>, space: &[DVec3]) {
        let mut run: Vec<DVec2> = Vec::new();
        let mut found: Vec<Vec<DVec2>> = Vec::new();
        for pair in space.windows(2) {
            let (from, to) = (eye.screen(pair[0]), eye.screen(pair[1]));
            let depths = (eye.depth(pair[0]), eye.depth(pair[1]));
            let Some((start, stop)) = inside(eye.area, from, to) else { continue };
            let steps =
                ((stop - start) * from.distance(to) / LOOK).ceil().clamp(1.0, 4000.0) as u32;
            for k in 0..=steps {
                let t = start + (stop - start) * f64::from(k) / f64::from(steps);
                let (at, depth) = (from.lerp(to, t), depths.0 + (depths.1 - depths.0) * t);
                if self.hides(of, at, depth) {
                    found.push(std::mem::take(&mut run));
                } else {
                    straightened(&mut run, at);
                }
            }
        }
        found.push(run);
        let kept = found.into_iter().filter(|points| points.len() >= 2);
        self.lines.extend(kept.map(|points| Line { of, stretch, points }));
    }

    /// Whether something of another thing stands before a place.
    fn hides(&self, of: Of, at: DVec2, depth: f64) -> bool {
        self.seen(at).is_some_and(|seen| {
            self.items[seen.item as usize].of != of && f64::from(seen.depth) > depth + SLACK_MM
        })
    }

    fn seen(&self, at: DVec2) -> Option<Seen> {
        self.raster.at((at - self.area.min) * self.pixels_per_point)
    }

    fn port(&self, eye: &Eye, index: usize, port: &super::super::scene::PortMark) -> PortSpot {
        let (at, depth) = (eye.screen(port.at), eye.depth(port.at));
        let ahead = eye.screen(port.at + port.toward) - at;
        let reach = 2.0 * port.radius_mm.max(6.0);
        let is_in_sight = self.seen(at).is_none_or(|seen| f64::from(seen.depth) <= depth + reach);
        PortSpot { index, at, toward: ahead / eye.camera.points_per_mm, depth, is_in_sight }
    }

    /// What is under a point of the screen; a hose also from a little beside it.
    pub fn under(&self, at: DVec2) -> Option<Of> {
        const REACH: i32 = 3;
        let of = |at: DVec2| self.seen(at).map(|seen| self.items[seen.item as usize].of);
        let hit = of(at);
        if !self.area.contains(at) || matches!(hit, Some(Of::Hose(_))) {
            return hit.filter(|_| self.area.contains(at));
        }
        let mut best: Option<(i32, Of)> = None;
        for x in -REACH..=REACH {
            for y in -REACH..=REACH {
                let far = x * x + y * y;
                if far > REACH * REACH || best.is_some_and(|(least, _)| least <= far) {
                    continue;
                }
                if let Some(hose @ Of::Hose(_)) = of(at + DVec2::new(f64::from(x), f64::from(y))) {
                    best = Some((far, hose));
                }
            }
        }
        best.map(|(_, hose)| hose).or(hit)
    }

    /// The port under a point of the screen, those in sight first.
    pub fn port_under(&self, at: DVec2, reach: f64) -> Option<usize> {
        let near = self.ports.iter().filter(|port| port.at.distance(at) <= reach);
        let best = near.min_by(|a, b| {
            b.is_in_sight.cmp(&a.is_in_sight).then(a.at.distance(at).total_cmp(&b.at.distance(at)))
        });
        best.map(|port| port.index)
    }

    /// The middle of a hose on the screen, whatever stands before it: a line for each of its parts.
    pub fn middle_lines(&self, hose: usize) -> Vec<Vec<DVec2>> {
        let own: Vec<_> = self.stations.iter().filter(|(of, _)| of[0] == hose).collect();
        let parts = own.chunk_by(|a, b| a.0 == b.0);
        parts
            .map(|part| part.iter().map(|(_, station)| self.to_screen(station.at)).collect())
            .collect()
    }

    /// How far along a hose the place of it is that is seen nearest to a point of the screen.
    pub fn along(&self, hose: usize, at: DVec2) -> Option<f64> {
        let depth = self.seen(at).map(|seen| f64::from(seen.depth));
        let basis = self.camera.basis();
        let own = self.stations.windows(2).filter(|w| w[0].0[0] == hose && w[0].0 == w[1].0);
        let found = own.map(|w| {
            let (a, b) = (w[0].1, w[1].1);
            let [p, q] = [a, b].map(|s| self.camera.to_screen(self.area, s.at));
            let length = p.distance_squared(q);
            let t = if length > 0.0 { ((at - p).dot(q - p) / length).clamp(0.0, 1.0) } else { 0.0 };
            let place = a.at.lerp(b.at, t);
            let off = depth.map_or(0.0, |depth| {
                (depth - (place - self.camera.centre).dot(basis.to_viewer)).abs()
            });
            let off = p.lerp(q, t).distance(at) + 0.5 * off * self.camera.points_per_mm;
            (off, a.mm + (b.mm - a.mm) * t)
        });
        found.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, mm)| mm)
    }

    /// Where it is.
    pub fn area(&self) -> Area {
        self.area
    }

    /// From the bay to the screen.
    pub fn to_screen(&self, point: DVec3) -> DVec2 {
        self.camera.to_screen(self.area, point)
    }

    /// How it is looked at.
    pub fn camera(&self) -> TurnCamera {
        self.camera
    }
}

/// What is within a distance of a convex thing looks like what is within that distance of its
/// shadow. Of a mesh it is the distance from its hull.
fn min_clearance(eye: &Eye, obstacle: &ObstacleMark) -> Option<Vec<DVec2>> {
    if obstacle.min_clearance_mm <= 0.0 {
        return None;
    }
    let surface = obstacle.surface();
    let flat = |p: DVec3| {
        let at = eye.screen(p);
        DVec2::new(at.x, -at.y)
    };
    let points = if let Some((at, radius)) = surface.ball {
        let round = (0..64_u32).map(|k| {
            let d = DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / 64.0);
            flat(at) + d * radius * eye.camera.points_per_mm
        });
        round.collect()
    } else {
        let corners = surface.facets.iter().flat_map(|facet| facet.corners);
        corners.map(flat).collect()
    };
    let distance = obstacle.min_clearance_mm * eye.camera.points_per_mm;
    let mut line = outline::offset_convex(&hull(points), distance);
    line.extend(line.first().copied());
    Some(line.into_iter().map(|p| DVec2::new(p.x, -p.y)).collect())
}

/// A hose is never thinner than this on the screen: half of 2 points.
fn drawn_radius(eye: &Eye, tube: &Tube) -> f64 {
    let thinnest = if tube.stretch == Stretch::Fitting { 0.8 } else { 1.25 };
    tube.radius.max(thinnest / eye.camera.points_per_mm)
}

/// Adds a point to a run, in place of its last one where that lies on the way.
fn straightened(run: &mut Vec<DVec2>, at: DVec2) {
    if let [.., a, b] = run[..]
        && (b - a).perp_dot(at - b).abs() < 1e-3 * at.distance(b).max(1e-9)
        && (b - a).dot(at - b) >= 0.0
    {
        run.pop();
    }
    run.push(at);
}

/// The part of a straight line inside an area, as shares of its length.
fn inside(area: Area, a: DVec2, b: DVec2) -> Option<(f64, f64)> {
    let (along, mut from, mut to) = (b - a, 0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (lo, hi) = (area.min[axis] - a[axis], area.max[axis] - a[axis]);
        if along[axis] == 0.0 {
            if lo > 0.0 || hi < 0.0 {
                return None;
            }
            continue;
        }
        let (s, t) = (lo / along[axis], hi / along[axis]);
        from = from.max(s.min(t));
        to = to.min(s.max(t));
    }
    (from <= to).then_some((from, to))
}

#[cfg(test)]
mod tests;
