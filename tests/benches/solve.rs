//! How long a bay takes to solve, and that the cost grows linearly: runs of eight corners, with
//! the straights given and with the leads to be found, and one run dragged in a large bay.
//!
//! `cargo bench --bench solve`
#![allow(clippy::expect_used, reason = "a bench may stop where it stands")]

#[path = "../common/mod.rs"]
mod common;

use common::build::{bay, corner, elbow_end, port, run};
use divan::{Bencher, black_box};
use glam::DVec3;
use hosewright::engine::{Solver, solve};
use hosewright::model::Bay;

fn main() {
    divan::main();
}

/// A bay of `runs` hoses of eight corners each, all of which fit.
fn large_bay(runs: usize, straight_mm: Option<f64>) -> Bay {
    let mut ports = Vec::new();
    let mut hoses = Vec::new();
    for k in 0..runs {
        let y = 500.0 * k as f64;
        let (a, b) = (format!("a{k}"), format!("b{k}"));
        ports.push(port(&a, DVec3::new(0.0, y, 0.0), DVec3::X));
        ports.push(port(&b, DVec3::new(5000.0, y, 300.0), -DVec3::X));
        let via = (0..8)
            .map(|i| {
                let i = f64::from(i);
                corner(600.0 + 480.0 * i, y + 200.0 * (i % 2.0), 150.0 + 40.0 * (i % 3.0))
            })
            .collect();
        let from = elbow_end(&a, straight_mm, 45.0, 90.0, (20.0, 15.0));
        let to = elbow_end(&b, straight_mm, 90.0, 10.0, (20.0, 25.0));
        let mut hose = run(from, to, via);
        hose.id = format!("r{k}");
        hose.slack_pct = Some(5.0);
        hoses.push(hose);
    }
    let first = hoses.remove(0);
    let mut bay = bay(ports, first);
    bay.routings[0].runs.extend(hoses);
    bay
}

#[divan::bench(args = [10, 100, 1000])]
fn whole_bay_leads_given(bencher: Bencher<'_, '_>, runs: usize) {
    let bay = large_bay(runs, Some(150.0));
    bencher.counter(runs).bench_local(|| solve(black_box(&bay)));
}

#[divan::bench(args = [10, 100, 1000])]
fn whole_bay_leads_found(bencher: Bencher<'_, '_>, runs: usize) {
    let bay = large_bay(runs, None);
    bencher.counter(runs).bench_local(|| solve(black_box(&bay)));
}

#[divan::bench(args = [10, 100, 1000])]
fn one_run_dragged(bencher: Bencher<'_, '_>, runs: usize) {
    let bay = large_bay(runs, Some(150.0));
    let last = &bay.routings[0].runs[runs - 1];
    let mut solver = Solver::default();
    bencher.bench_local(|| solver.run(black_box(&bay), black_box(last)));
}
