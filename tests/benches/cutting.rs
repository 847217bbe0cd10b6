//! How long it takes to find a cut list and to prove it.
//!
//! `cargo bench --bench cutting`

#[path = "../common/mod.rs"]
mod common;

use common::xorshift::Xorshift;
use divan::{Bencher, black_box};
use hosewright::engine::cutting::optimum::{ByMetre, Problem, StockLength, solve};

fn main() {
    divan::main();
}

/// Pieces of 300 to 3295 mm, the same every time.
fn pieces(count: usize) -> Vec<f64> {
    let mut chance = Xorshift(88_172_645_463_325_252);
    (0..count).map(|_| (300 + 5 * chance.below(600)) as f64).collect()
}

fn problem(count: usize, lengths: &[(f64, f64)], by_metre: ByMetre) -> Problem {
    let stock = lengths.iter().map(|(length_mm, price)| StockLength {
        length_mm: *length_mm,
        count: None,
        price: Some(*price),
    });
    Problem {
        pieces_mm: pieces(count),
        kerf_mm: 3.0,
        stock: stock.collect(),
        by_metre,
        ..Problem::default()
    }
}

#[divan::bench(args = [10, 20, 40], sample_count = 20)]
fn two_lengths(bencher: Bencher, count: usize) {
    let problem = problem(count, &[(6000.0, 60.0), (4000.0, 43.0)], ByMetre::No);
    bencher.bench_local(|| black_box(solve(&problem)));
}

#[divan::bench(args = [10, 20, 30, 40], sample_count = 5)]
fn lengths_and_by_the_metre(bencher: Bencher, count: usize) {
    let problem = problem(count, &[(6000.0, 60.0), (4000.0, 43.0)], ByMetre::At(10.5));
    bencher.bench_local(|| black_box(solve(&problem)));
}
