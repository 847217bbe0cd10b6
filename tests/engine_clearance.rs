//! Which places count: the obstacle a port is screwed into, shared and neighbouring ports, cutting in;
//! and that the trees find what a look at everything finds. All figures invented.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{bay, corner, elbow_end, port, run};
use common::xorshift::Xorshift;
use glam::DVec3;
use hosewright::engine::clearance::{
    ClearanceIndex, NearObstacle, RoutingClearance, Tube, TubeEnd, hose_pairs,
};
use hosewright::engine::{Solver, solve_routing};
use hosewright::geom::{Piece, Rigid};
use hosewright::model::{Bay, Nature, Obstacle, Port, Run, Shape};

const NEAR: f64 = 1e-6;
/// Half the test hose.
const RADIUS: f64 = 6.0;

fn obstacle(id: &str, min_clearance_mm: f64, shape: Shape) -> Obstacle {
    Obstacle {
        id: id.into(),
        name: String::new(),
        nature: Nature::Plain,
        min_clearance_mm: Some(min_clearance_mm),
        group: None,
        shape,
        locked: None,
        extra: vec![],
    }
}

fn block(min: [f64; 3], max: [f64; 3]) -> Shape {
    Shape::Box { min: min.into(), max: max.into() }
}

fn clearance(bay: &Bay) -> RoutingClearance {
    solve_routing(bay, &bay.routings[0]).clearance
}

fn on(mut port: Port, obstacle: &str) -> Port {
    port.on = Some(obstacle.into());
    port
}

/// From a pump whose face is the plane x = 0, straight ahead to x = 500: exits 20 mm from the seats.
fn from_the_pump(via: Vec<hosewright::model::Via>, min_clearance_mm: f64, is_on: bool) -> Bay {
    let from = port("a", DVec3::ZERO, DVec3::X);
    let ports = vec![
        if is_on { on(from, "pump") } else { from },
        port("b", DVec3::new(500.0, 0.0, 0.0), DVec3::NEG_X),
    ];
    let ends = ["a", "b"].map(|id| elbow_end(id, Some(60.0), 0.0, 0.0, (20.0, 0.0)));
    let [a, b] = ends;
    let mut bay = bay(ports, run(a, b, via));
    bay.obstacles =
        vec![obstacle("pump", min_clearance_mm, block([-100.0; 3], [0.0, 100.0, 100.0]))];
    bay
}

#[test]
fn the_obstacle_of_a_port_counts_from_where_its_min_clearance_is_reached() {
    let found = clearance(&from_the_pump(vec![], 25.0, true));
    assert_eq!(found.runs[0].too_near, []);
    let tightest = found.runs[0].tightest.unwrap();
    assert!((tightest.gap_mm - 25.0).abs() < NEAR, "{tightest:?}");
    // The axis is then 31 mm from the face, 11 from the exit.
    assert!((tightest.at_mm - 11.0).abs() < NEAR, "{tightest:?}");

    let found = clearance(&from_the_pump(vec![], 25.0, false));
    assert!((found.runs[0].too_near[0].gap_mm - 14.0).abs() < NEAR);
    assert!(found.runs[0].too_near[0].at_mm.abs() < NEAR);
}

#[test]
fn it_counts_again_where_the_hose_comes_back() {
    // Up, back over the pump 120 mm above the seat, and down again to end B.
    let via = vec![corner(150.0, 0.0, 118.0), corner(-50.0, 0.0, 118.0), corner(-50.0, 0.0, 400.0)];
    let mut bay = from_the_pump(via, 25.0, true);
    bay.routings[0].runs[0].radius_mm = Some(20.0);
    let found = clearance(&bay);
    let near = &found.runs[0].too_near[0];
    assert!((near.gap_mm - 12.0).abs() < NEAR, "{near:?}");
    assert!((near.on_obstacle.z - 100.0).abs() < NEAR, "{near:?}");
}

#[test]
fn a_hose_that_never_gets_away_counts_past_the_socket() {
    // Minimum clearance 600: nowhere on this run.
    let found = clearance(&from_the_pump(vec![], 600.0, true));
    let near = &found.runs[0].too_near[0];
    assert!((near.at_mm - 20.0).abs() < NEAR, "from the mouth of the socket: {near:?}");
    assert!((near.gap_mm - (40.0 - RADIUS)).abs() < NEAR, "{near:?}");
}

#[test]
fn cutting_into_the_obstacle_of_a_port_always_counts() {
    // An elbow that leads the hose along the face, its axis 4 mm from it.
    let mut bay = from_the_pump(vec![], 25.0, true);
    bay.routings[0].runs[0].from = elbow_end("a", Some(60.0), 90.0, 0.0, (4.0, 20.0));
    let found = clearance(&bay);
    let near = &found.runs[0].too_near[0];
    assert!((near.gap_mm + 2.0).abs() < NEAR, "{near:?}");
    // 7 mm from it, the gap is 1: less than asked for, but no cut.
    bay.routings[0].runs[0].from = elbow_end("a", Some(60.0), 90.0, 0.0, (7.0, 20.0));
    assert_eq!(clearance(&bay).runs[0].too_near, []);
}

#[test]
fn both_ends_on_one_obstacle_each_from_its_own_end() {
    let ports = vec![
        on(port("a", DVec3::ZERO, DVec3::X), "pump"),
        on(port("b", DVec3::new(0.0, 300.0, 0.0), DVec3::X), "pump"),
    ];
    let [a, b] = ["a", "b"].map(|id| elbow_end(id, Some(200.0), 0.0, 0.0, (20.0, 0.0)));
    let mut bay = bay(ports, run(a, b, vec![]));
    bay.obstacles = vec![obstacle("pump", 50.0, block([-100.0; 3], [0.0, 400.0, 100.0]))];
    let found = clearance(&bay);
    assert_eq!(found.runs[0].too_near, []);
    assert!((found.runs[0].tightest.unwrap().gap_mm - 50.0).abs() < NEAR);
}

#[test]
fn the_tightest_is_the_one_with_least_to_spare() {
    let mut bay = from_the_pump(vec![], 0.0, false);
    bay.obstacles = vec![
        obstacle("near", 0.0, block([200.0, 16.0, -9.0], [300.0, 60.0, 9.0])),
        obstacle("far", 40.0, block([200.0, -90.0, -9.0], [300.0, -50.0, 9.0])),
    ];
    let found = clearance(&bay);
    // 10 and 44 mm of gap: 10 and 4 to spare.
    assert_eq!((found.runs[0].tightest.unwrap().obstacle, found.runs[0].too_near.len()), (1, 0));
    bay.obstacles.clear();
    assert_eq!(clearance(&bay).runs[0].tightest, None);
}

/// Two straight hoses of 540 mm along X and 12 mm thick, from these seats, to ends that are `fan`
/// farther apart.
fn two(seats: [DVec3; 2], fan: f64, one_port: bool) -> Bay {
    let mut ports = Vec::new();
    let mut runs: Vec<Run> = Vec::new();
    for (k, seat) in seats.into_iter().enumerate() {
        let away = DVec3::new(600.0, if k == 0 { 0.0 } else { fan }, 0.0);
        let names = [format!("a{}", if one_port { 0 } else { k }), format!("b{k}")];
        if !(one_port && k == 1) {
            ports.push(port(&names[0], seat, DVec3::X));
        }
        ports.push(port(&names[1], seat + away, DVec3::NEG_X));
        let [a, b] = names.map(|id| elbow_end(&id, Some(100.0), 0.0, 0.0, (20.0, 0.0)));
        let mut hose = run(a, b, vec![]);
        hose.id = format!("r{k}");
        runs.push(hose);
    }
    let mut bay = bay(ports, runs.remove(0));
    bay.routings[0].runs.extend(runs);
    bay
}

#[test]
fn two_hoses_side_by_side() {
    let apart =
        |y: f64| clearance(&two([DVec3::ZERO, DVec3::new(-50.0, y, 0.0)], 0.0, false)).pairs;
    assert_eq!(apart(18.0), []);
    let pair = apart(17.0)[0];
    assert_eq!(pair.hoses, [0, 1]);
    assert!((pair.gap_mm - 5.0).abs() < NEAR);
    assert!((pair.at_mm[1] - pair.at_mm[0] - 50.0).abs() < 1e-3, "{pair:?}");
    assert!((pair.on_axes[0].distance(pair.on_axes[1]) - 17.0).abs() < NEAR);
}

#[test]
fn hoses_from_one_port_may_be_near_each_other_there() {
    // They part at once and stay apart.
    let bay = two([DVec3::ZERO; 2], 300.0, true);
    assert_eq!(clearance(&bay).pairs, []);
    // The same hoses from two ports in one place cut into each other.
    let pairs = clearance(&two([DVec3::ZERO; 2], 300.0, false)).pairs;
    assert!((pairs[0].gap_mm + 12.0).abs() < NEAR, "{pairs:?}");
    // From one port, but never apart: past the sockets they count.
    let pairs = clearance(&two([DVec3::ZERO; 2], 0.5, true)).pairs;
    assert_eq!(pairs.len(), 1);
    assert!(pairs[0].at_mm[0].max(pairs[0].at_mm[1]) >= 20.0 - NEAR, "{pairs:?}");
}

#[test]
fn hoses_from_neighbouring_ports_may_be_near_but_not_cut() {
    let at = |y: f64| [DVec3::ZERO, DVec3::new(0.0, y, 0.0)];
    // 14 mm: 2 mm of gap at the start, 6 soon after.
    assert_eq!(clearance(&two(at(14.0), 300.0, false)).pairs, []);
    // 11 mm: they cut into each other.
    let pairs = clearance(&two(at(11.0), 300.0, false)).pairs;
    assert!((pairs[0].gap_mm + 1.0).abs() < NEAR, "{pairs:?}");
    // 14 mm at the start, and again 14 mm at the other end, which are neighbours too: never apart.
    let pairs = clearance(&two(at(14.0), 0.0, false)).pairs;
    assert!((pairs[0].gap_mm - 2.0).abs() < NEAR, "{pairs:?}");
}

#[test]
fn the_gap_of_the_routing_is_kept() {
    let mut bay = two([DVec3::ZERO, DVec3::new(-50.0, 17.0, 0.0)], 0.0, false);
    bay.routings[0].hose_clearance_mm = Some(5.0);
    assert_eq!(clearance(&bay).pairs, []);
    bay.routings[0].hose_clearance_mm = Some(5.1);
    assert_eq!(clearance(&bay).pairs.len(), 1);
}

/// The same bays every time.
struct Chance(Xorshift);

impl Chance {
    fn share(&mut self) -> f64 {
        self.0.share()
    }

    fn point(&mut self, reach: f64) -> DVec3 {
        DVec3::new(self.share(), self.share(), self.share()) * 2.0 * reach - reach
    }

    fn obstacle(&mut self) -> Obstacle {
        let (at, size) = (self.point(300.0), 10.0 + 40.0 * self.share());
        let shape = match (self.share() * 3.0) as u32 {
            0 => Shape::Box { min: at, max: at + self.point(size).abs() },
            1 => Shape::Cylinder { from: at, to: at + self.point(2.0 * size), radius: size },
            _ => Shape::Sphere { at, radius: size },
        };
        obstacle("s", 40.0 * self.share(), shape)
    }

    fn hose(&mut self) -> Vec<(f64, Piece)> {
        let mut at = 0.0;
        let mut start = self.point(300.0);
        let mut direction = self.point(1.0).normalize();
        let mut pieces = Vec::new();
        for k in 0..6 {
            let inward = direction.cross(self.point(1.0)).normalize();
            let (radius, angle) = (40.0 + 60.0 * self.share(), 0.2 + 1.5 * self.share());
            let piece = if k % 2 == 0 {
                Piece::Line { start, direction, length: 150.0 * self.share() }
            } else {
                Piece::Arc { start, direction, inward, radius, angle }
            };
            pieces.push((at, piece));
            let length = piece.length();
            (start, direction) = (piece.point_at(length), piece.direction_at(length));
            at += length;
        }
        pieces
    }
}

fn tube(pieces: &[(f64, Piece)]) -> Tube<'static> {
    let free = |seat: DVec3, port| TubeEnd { port, seat, socket_mm: 20.0, on: None };
    let far = DVec3::splat(1e6);
    // Every hose has ports of its own.
    let name = |end: &str| -> &'static str {
        Box::leak(format!("{end} {}", pieces[0].1.point_at(0.0)).into_boxed_str())
    };
    let seat = pieces[0].1.point_at(0.0);
    Tube::new(
        pieces.iter().copied(),
        12.0,
        [free(seat + far, name("a")), free(seat - far, name("b"))],
    )
}

#[test]
fn the_trees_find_what_a_look_at_everything_finds() {
    let mut chance = Chance(Xorshift(20_260_101));
    for _ in 0..30 {
        let obstacles: Vec<Obstacle> = (0..25).map(|_| chance.obstacle()).collect();
        let hoses: Vec<_> = (0..12).map(|_| chance.hose()).collect();
        let index = ClearanceIndex::new(&obstacles);
        let tubes: Vec<_> = hoses.iter().map(|pieces| Some(tube(pieces))).collect();
        for tube in tubes.iter().flatten() {
            let found = index.tube(tube);
            let alone: Vec<_> = obstacles
                .iter()
                .map(|obstacle| {
                    let alone = ClearanceIndex::new(std::slice::from_ref(obstacle));
                    alone.tube(tube).tightest.unwrap()
                })
                .collect();
            let least = alone.iter().map(NearObstacle::spare_mm).fold(f64::INFINITY, f64::min);
            assert!((found.tightest.unwrap().spare_mm() - least).abs() < 1e-4);
            let expected: Vec<usize> =
                (0..obstacles.len()).filter(|k| alone[*k].spare_mm() < -1e-4).collect();
            let got = found.too_near.iter().filter(|near| near.spare_mm() < -1e-4);
            assert_eq!(got.map(|near| near.obstacle).collect::<Vec<_>>(), expected);
            for near in &found.too_near {
                assert!((near.gap_mm - alone[near.obstacle].gap_mm).abs() < 1e-4);
            }
        }
        let together = hose_pairs(&tubes, 20.0);
        let mut one_by_one = Vec::new();
        for a in 0..tubes.len() {
            for b in a + 1..tubes.len() {
                let two = [tubes[a].clone(), tubes[b].clone()];
                one_by_one.extend(hose_pairs(&two, 20.0).iter().map(|pair| (a, b, pair.gap_mm)));
            }
        }
        let together: Vec<_> =
            together.iter().map(|pair| (pair.hoses[0], pair.hoses[1], pair.gap_mm)).collect();
        assert_eq!(together, one_by_one);
    }
}

/// 100 m of hose in zigzag, so many bends, so far aside.
fn long_zigzag(bends: usize, aside: f64) -> Vec<(f64, Piece)> {
    let step = 100_000.0 / (bends + 1) as f64;
    let y = |k: usize| {
        let off = if k.is_multiple_of(2) { 300.0 } else { -300.0 };
        if k == 0 || k == bends + 1 { aside } else { aside + off }
    };
    let place = |k: usize| DVec3::new(step * k as f64, y(k), 0.0);
    let mut at = 0.0;
    (0..=bends)
        .map(|k| {
            let way = place(k + 1) - place(k);
            let start = at;
            at += way.length();
            let (direction, length) = (way.normalize(), way.length());
            (start, Piece::Line { start: place(k), direction, length })
        })
        .collect()
}

#[test]
fn a_hundred_metres_side_by_side_or_in_one_another_are_answered() {
    for bends in [0, 7, 400] {
        for aside in [0.0, 15.0, 17.0] {
            let ends = |name: [&'static str; 2]| {
                let seat = |x: f64| DVec3::new(x, aside, 0.0);
                let end = |port, x| TubeEnd { port, seat: seat(x), socket_mm: 20.0, on: None };
                [end(name[0], 0.0), end(name[1], 100_000.0)]
            };
            let one = Tube::new(long_zigzag(bends, 0.0), 12.0, ends(["a", "b"]));
            let two = Tube::new(long_zigzag(bends, aside), 12.0, ends(["c", "d"]));
            let found = hose_pairs(&[Some(one), Some(two)], 6.0);
            let along = 100_000.0 / (bends + 1) as f64;
            // Across a slanted stretch they are nearer.
            let least = if bends == 0 { aside } else { aside * along / along.hypot(600.0) };
            if let [pair] = &found[..] {
                let apart = pair.gap_mm + 12.0;
                assert!(apart >= least - 1e-6 && apart <= aside + 1e-6, "{bends} {aside}: {apart}");
            }
            assert!(aside > 12.0 || found.len() == 1, "{bends} {aside}: they run into each other");
        }
    }
}

#[test]
fn moved_obstacles_are_as_if_drawn_there_and_come_back() {
    let mut chance = Chance(Xorshift(7));
    let obstacles: Vec<Obstacle> = (0..20).map(|_| chance.obstacle()).collect();
    let hose = tube(&chance.hose());
    let mut index = ClearanceIndex::new(&obstacles);
    let before = index.tube(&hose);
    let shift = DVec3::new(30.0, -20.0, 10.0);
    index.set_positions(|_| Rigid::shifted(shift));
    let mut drawn = obstacles.clone();
    for obstacle in &mut drawn {
        match &mut obstacle.shape {
            Shape::Box { min, max } => (*min, *max) = (*min + shift, *max + shift),
            Shape::Cylinder { from, to, .. } => (*from, *to) = (*from + shift, *to + shift),
            Shape::Sphere { at, .. } => *at += shift,
            Shape::Mesh { .. } => {}
        }
    }
    let there = ClearanceIndex::new(&drawn).tube(&hose).tightest.unwrap();
    assert!((index.tube(&hose).tightest.unwrap().gap_mm - there.gap_mm).abs() < 1e-6);
    assert!(index.update(&obstacles), "back to where they are drawn");
    assert_eq!(index.tube(&hose), before);
}

#[test]
fn what_is_kept_between_solves_does_not_change_the_answer() {
    let mut chance = Chance(Xorshift(99));
    let mut bay = from_the_pump(vec![corner(250.0, 80.0, 40.0)], 10.0, true);
    let mut solver = Solver::default();
    for step in 0..30 {
        match step % 3 {
            0 => bay.obstacles.push(chance.obstacle()),
            1 => bay.routings[0].runs[0].via[0] = corner(250.0, 10.0 * f64::from(step), 40.0),
            _ => {
                let place = 1 + step as usize % (bay.obstacles.len() - 1);
                bay.obstacles[place] = chance.obstacle();
            }
        }
        let kept = solver.routing(&bay, &bay.routings[0]);
        assert_eq!(kept, solve_routing(&bay, &bay.routings[0]), "step {step}");
    }
}
