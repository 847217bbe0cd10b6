//! How long an installed shape takes: spans in space from cold and from a shape a moment ago, and whole bays side
//! by side. Prints the time of a span first, in microseconds, over 2000 random spans (chord 0.1 to
//! 0.97 of the length, any clamp directions), and the spans that `rod_baselines.py` solves with
//! general libraries.
//!
//! `cargo bench --bench installed`, or `python3 tests/benches/rod_baselines.py` for the ratios.
#![allow(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a bench may stop and says what it found"
)]

#[path = "../common/mod.rs"]
mod common;

use std::time::Instant;

use common::build::{bay, clamp, corner, port, run, straight_end};
use common::xorshift::Xorshift;
use divan::{Bencher, black_box};
use glam::DVec3;
use hosewright::engine::installed::{InstalledSolver, installed};
use hosewright::engine::{RoutingSolution, solve};
use hosewright::geom::rod::{RodSeed, RodShape, RodSolver, RodSpan};

const DOWN: DVec3 = DVec3::NEG_Z;
/// Spans timed one by one.
const COUNT: usize = 2000;

fn main() {
    report();
    divan::main();
}

/// The same spans in every run.
fn spans(count: usize) -> Vec<RodSpan> {
    let mut chance = Xorshift(0x9E37_79B9_7F4A_7C15);
    let mut roll = move || chance.share();
    let mut direction = move || loop {
        let v = 2.0 * DVec3::new(roll(), roll(), roll()) - 1.0;
        if (0.1..1.0).contains(&v.length()) {
            return (v.normalize(), v.length());
        }
    };
    let mut made = Vec::with_capacity(count);
    while made.len() < count {
        let [(from_direction, a), (to_direction, b), (way, _)] =
            [direction(), direction(), direction()];
        let length = 300.0 + 500.0 * a;
        let to = way * length * (0.1 + 0.87 * b);
        made.push(RodSpan { from: DVec3::ZERO, from_direction, to, to_direction, length });
    }
    made
}

fn moved(span: &RodSpan) -> RodSpan {
    RodSpan { to: span.to + DVec3::new(0.5, -0.3, 0.4), ..*span }
}

/// Least of a few, in microseconds: what the machine does besides is not the solver's.
fn timed(mut solve: impl FnMut()) -> f64 {
    let one = |_| {
        let start = Instant::now();
        solve();
        start.elapsed().as_secs_f64() * 1e6
    };
    (0..3).map(one).fold(f64::INFINITY, f64::min)
}

fn percentile(times: &mut [f64], share: f64) -> f64 {
    times.sort_by(f64::total_cmp);
    times[((times.len() - 1) as f64 * share) as usize]
}

fn report() {
    let (spans, mut solver) = (spans(COUNT), RodSolver::default());
    let (mut cold, mut warm) = (Vec::new(), Vec::new());
    let mut failed = 0;
    for span in &spans {
        cold.push(timed(|| {
            black_box(solver.solve(span, RodSeed::Plain, DOWN).is_ok());
        }));
        let Ok(shape) = solver.solve(span, RodSeed::Plain, DOWN).cloned() else {
            failed += 1;
            continue;
        };
        let next = moved(span);
        let again = RodSeed::Previous(&shape);
        warm.push(timed(|| {
            black_box(solver.solve(&next, again, DOWN).is_ok());
        }));
    }
    println!("of {COUNT} random spans {failed} had no installed shape");
    for (name, times) in [("cold", &mut cold), ("warm", &mut warm)] {
        let (median, high) = (percentile(times, 0.5), percentile(times, 0.95));
        println!("{name}: median {median:.1} us, p95 {high:.1} us a span");
    }
    for span in spans.iter().take(10) {
        let shape = solver.solve(span, RodSeed::Plain, DOWN).expect("an installed shape").clone();
        let us = timed(|| {
            black_box(solver.solve(span, RodSeed::Plain, DOWN).is_ok());
        });
        print_span(span, &shape, us);
    }
}

/// One line for `rod_baselines.py`.
fn print_span(span: &RodSpan, shape: &RodShape, us: f64) {
    let v = |v: DVec3| format!("[{:.17e},{:.17e},{:.17e}]", v.x, v.y, v.z);
    let list = |vs: &[DVec3]| vs.iter().map(|p| v(*p)).collect::<Vec<_>>().join(",");
    println!(
        "SPAN {{\"to\":{},\"t0\":{},\"t1\":{},\"length\":{:.17e},\"energy\":{:.17e},\"radius\":{:.17e},\
         \"us\":{us:.2},\"force\":{},\"points\":[{}],\"tangents\":[{}]}}",
        v(span.to),
        v(span.from_direction),
        v(span.to_direction),
        span.length,
        shape.energy,
        shape.min_radius().expect("it bends"),
        v(shape.force),
        list(&shape.points),
        list(&shape.tangents),
    );
}

#[divan::bench]
fn span_cold(bencher: Bencher<'_, '_>) {
    let (spans, mut solver) = (spans(100), RodSolver::default());
    bencher.counter(spans.len()).bench_local(|| {
        for span in &spans {
            black_box(solver.solve(black_box(span), RodSeed::Plain, DOWN))
                .expect("an installed shape");
        }
    });
}

#[divan::bench]
fn span_warm(bencher: Bencher<'_, '_>) {
    let mut solver = RodSolver::default();
    let pairs: Vec<(RodSpan, RodShape)> = spans(100)
        .iter()
        .map(|span| {
            let shape = solver.solve(span, RodSeed::Plain, DOWN).expect("an installed shape");
            (moved(span), shape.clone())
        })
        .collect();
    bencher.counter(pairs.len()).bench_local(|| {
        for (span, shape) in &pairs {
            black_box(solver.solve(black_box(span), RodSeed::Previous(shape), DOWN))
                .expect("an installed shape");
        }
    });
}

/// Hoses with two bends and a clamp: two spans each.
fn large_bay(runs: usize) -> RoutingSolution {
    let mut ports = Vec::new();
    let mut hoses = Vec::new();
    for k in 0..runs {
        let y = 300.0 * k as f64;
        let (a, b) = (format!("a{k}"), format!("b{k}"));
        ports.push(port(&a, DVec3::new(0.0, y, 0.0), DVec3::X));
        ports.push(port(&b, DVec3::new(900.0, y + 400.0, 150.0), -DVec3::Y));
        let middle = DVec3::new(450.0, y + 120.0, 60.0);
        let via = vec![
            corner(250.0, y, 40.0),
            clamp(middle, DVec3::new(1.0, 0.3, 0.2), 12.0, Some(60.0)),
        ];
        let mut hose = run(straight_end(&a, None), straight_end(&b, None), via);
        (hose.id, hose.slack_pct) = (format!("r{k}"), Some(5.0));
        hoses.push(hose);
    }
    let first = hoses.remove(0);
    let mut bay = bay(ports, first);
    bay.routings[0].runs.extend(hoses);
    solve(&bay).routings.remove(0)
}

#[divan::bench(args = [10, 60, 1000])]
fn whole_bay_side_by_side(bencher: Bencher<'_, '_>, runs: usize) {
    let routing = large_bay(runs);
    bencher.counter(runs).bench_local(|| installed(black_box(&routing)));
}

#[divan::bench(args = [10, 60, 1000])]
fn whole_bay_on_one_core(bencher: Bencher<'_, '_>, runs: usize) {
    let (routing, mut solver) = (large_bay(runs), InstalledSolver::default());
    bencher.counter(runs).bench_local(|| {
        for run in routing.runs.iter().flatten() {
            black_box(solver.installed(black_box(run)));
        }
    });
}
