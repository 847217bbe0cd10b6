//! How long clearances take, on one core: prepared obstacles, hoses that move.
//!
//! `cargo bench --bench clearance`. Beside it, on the machine where they were taken, 20 hoses against
//! 50 boxes: trimesh 5.2.0 60 ms (merged), python-fcl 0.7.0 capsules 28 ms, sampled distance fields in
//! numpy 14 ms.
#![allow(clippy::expect_used, reason = "a bench may stop where it stands")]

#[path = "../common/mod.rs"]
mod common;

use common::xorshift::Xorshift;
use divan::{Bencher, black_box};
use glam::DVec3;
use hosewright::engine::clearance::{ClearanceIndex, Tube, TubeEnd, hose_pairs};
use hosewright::geom::{CentreLine, Piece, Polyline, fit_fillets_into};
use hosewright::model::{Mesh, Nature, Obstacle, Shape};
use std::sync::Arc;

fn main() {
    divan::main();
}

/// The same bays every time.
struct Chance(Xorshift);

impl Chance {
    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.0.share()
    }

    fn point(&mut self, reach: f64) -> DVec3 {
        DVec3::from_array([0; 3].map(|_| self.between(-reach, reach)))
    }

    /// A route of so many corners inside the bay, 150 to 300 mm apart.
    fn hose(&mut self, corners: usize, reach: f64) -> Vec<(f64, Piece)> {
        let mut points = vec![self.point(reach)];
        while points.len() < corners + 2 {
            let step = self.point(1.0).normalize_or(DVec3::X) * self.between(150.0, 300.0);
            let next = points[points.len() - 1] + step;
            if next.abs().max_element() < reach {
                points.push(next);
            }
        }
        let line = Polyline::new(points, |_| None);
        let count = line.points.len();
        let mut fillets = Vec::new();
        fit_fillets_into(&mut fillets, &line, &vec![60.0; count], &vec![0.0; count - 1]);
        CentreLine::rounded(&line, &fillets, &mut Vec::new()).pieces().collect()
    }

    fn obstacle(&mut self, kind: usize, reach: f64) -> Obstacle {
        let at = self.point(reach);
        let mut size = || self.between(5.0, 25.0);
        let shape = match kind {
            0 => {
                let half = DVec3::new(size(), size(), size());
                Shape::Box { min: at - half, max: at + half }
            }
            1 => {
                let radius = size();
                Shape::Cylinder { from: at, to: at + self.point(60.0), radius }
            }
            _ => Shape::Sphere { at, radius: size() },
        };
        obstacle(shape)
    }
}

fn obstacle(shape: Shape) -> Obstacle {
    Obstacle {
        id: String::new(),
        name: String::new(),
        nature: Nature::Plain,
        min_clearance_mm: Some(10.0),
        group: None,
        shape,
        locked: None,
        extra: vec![],
    }
}

type Hoses = Vec<Vec<(f64, Piece)>>;

fn crowd(
    hoses: usize,
    corners: usize,
    obstacles: usize,
    kinds: usize,
    reach: f64,
) -> (Hoses, Vec<Obstacle>) {
    let mut chance = Chance(Xorshift(88_172_645_463_325_252));
    let obstacles = (0..obstacles).map(|k| chance.obstacle(k % kinds, reach)).collect();
    ((0..hoses).map(|_| chance.hose(corners, reach)).collect(), obstacles)
}

fn tubes(hoses: &Hoses, names: &'static [String]) -> Vec<Option<Tube<'static>>> {
    let end = |k: usize| TubeEnd {
        port: &names[k],
        seat: DVec3::splat(1e5 * k as f64),
        socket_mm: 20.0,
        on: None,
    };
    let tube = |(k, pieces): (usize, &Vec<(f64, Piece)>)| {
        Some(Tube::new(pieces.iter().copied(), 12.0, [end(2 * k), end(2 * k + 1)]))
    };
    hoses.iter().enumerate().map(tube).collect()
}

fn names(hoses: usize) -> &'static [String] {
    Box::leak((0..2 * hoses).map(|k| k.to_string()).collect::<Vec<_>>().into_boxed_slice())
}

/// The references' task: 20 hoses against 50 boxes; the hoses are made ready anew each time.
#[divan::bench]
fn twenty_hoses_fifty_boxes(bencher: Bencher<'_, '_>) {
    let (hoses, obstacles) = crowd(20, 4, 50, 1, 500.0);
    let (index, names) = (ClearanceIndex::new(&obstacles), names(20));
    bencher.bench_local(|| {
        let tubes = tubes(black_box(&hoses), names);
        tubes.iter().flatten().map(|tube| index.tube(tube)).collect::<Vec<_>>()
    });
}

/// A crowded bay of 1.2 m: hoses of 8 corners against 200 obstacles and each other.
#[divan::bench(args = [15, 30, 60])]
fn hoses_of_a_crowded_bay(bencher: Bencher<'_, '_>, count: usize) {
    let (hoses, obstacles) = crowd(count, 8, 200, 3, 600.0);
    let (index, names) = (ClearanceIndex::new(&obstacles), names(count));
    bencher.bench_local(|| {
        let tubes = tubes(black_box(&hoses), names);
        let alone: Vec<_> = tubes.iter().flatten().map(|tube| index.tube(tube)).collect();
        (alone, hose_pairs(&tubes, 6.0))
    });
}

/// Twice the obstacles is not twice the time.
#[divan::bench(args = [100, 200, 400, 800])]
fn sixty_hoses_many_obstacles(bencher: Bencher<'_, '_>, count: usize) {
    let (hoses, obstacles) = crowd(60, 8, count, 3, 1500.0);
    let (index, names) = (ClearanceIndex::new(&obstacles), names(60));
    let tubes = tubes(&hoses, names);
    bencher.bench_local(|| {
        tubes.iter().flatten().map(|tube| index.tube(black_box(tube))).collect::<Vec<_>>()
    });
}

/// A wavy ball of 200 000 triangles, closed.
fn wavy_ball() -> Obstacle {
    const RINGS: u32 = 316;
    let around = 2.0 * std::f64::consts::PI / f64::from(RINGS);
    let mut vertices = vec![DVec3::Z * 200.0];
    for ring in 1..RINGS {
        for step in 0..RINGS {
            let (down, turn) = (f64::from(ring) * around / 2.0, f64::from(step) * around);
            let radius = 200.0 + 20.0 * (9.0 * down).sin() * (7.0 * turn).cos();
            let (sin, cos) = down.sin_cos();
            vertices.push(radius * DVec3::new(sin * turn.cos(), sin * turn.sin(), cos));
        }
    }
    vertices.push(DVec3::NEG_Z * 200.0);
    let last = vertices.len() as u32 - 1;
    let at = |ring: u32, step: u32| 1 + (ring - 1) * RINGS + step % RINGS;
    let mut triangles = Vec::new();
    for step in 0..RINGS {
        triangles.push([0, at(1, step), at(1, step + 1)]);
        triangles.push([last, at(RINGS - 1, step + 1), at(RINGS - 1, step)]);
        for ring in 1..RINGS - 1 {
            triangles.push([at(ring, step), at(ring + 1, step), at(ring + 1, step + 1)]);
            triangles.push([at(ring, step), at(ring + 1, step + 1), at(ring, step + 1)]);
        }
    }
    let mesh = Arc::new(Mesh::new(vertices, triangles));
    obstacle(Shape::Mesh { file: String::new(), scale: 1.0, at: DVec3::ZERO, mesh })
}

#[divan::bench(sample_count = 5)]
fn mesh_prepared(bencher: Bencher<'_, '_>) {
    // A mesh that was made ready once is not made ready again.
    let anew = || [wavy_ball()];
    bencher.with_inputs(anew).bench_local_refs(|ball| ClearanceIndex::new(black_box(ball)));
}

/// Ten hoses of 8 corners about it.
#[divan::bench(sample_count = 20)]
fn mesh_queried(bencher: Bencher<'_, '_>) {
    let (hoses, _) = crowd(10, 8, 0, 1, 400.0);
    let index = ClearanceIndex::new(&[wavy_ball()]);
    let tubes = tubes(&hoses, names(10));
    bencher.bench_local(|| {
        tubes.iter().flatten().map(|tube| index.tube(black_box(tube))).collect::<Vec<_>>()
    });
}
