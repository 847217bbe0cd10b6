//! How long it takes to write the length sheet, labels and a template of a bay with 60 hoses, from its
//! solution to the bytes: 60 hoses in under 2 s.
//!
//! `cargo bench --bench sheet`
#![allow(clippy::expect_used, reason = "a bench may stop")]

#[path = "../common/mod.rs"]
mod common;

use common::build::{bay, clamp, corner, port, run, straight_end};
use divan::{Bencher, black_box};
use glam::DVec3;
use hosewright::export::{Format, LabelKind, Paper, Template, labels, template};
use hosewright::report::answer::Answer;
use hosewright::report::sheet::{Sheet, SheetInfo};

const HOSES: usize = 60;

fn main() {
    divan::main();
}

/// Hoses side by side, each with a clamp and two corners.
fn large() -> Answer {
    let (mut ports, mut runs) = (Vec::new(), Vec::new());
    for i in 0..HOSES {
        let (a, b, y) = (format!("a{i}"), format!("b{i}"), 60.0 * i as f64);
        ports.push(port(&a, DVec3::new(0.0, y, 0.0), DVec3::X));
        ports.push(port(&b, DVec3::new(1200.0, y + 300.0, 200.0), DVec3::X));
        let via = vec![
            corner(300.0, y, 0.0),
            clamp(DVec3::new(600.0, y + 150.0, 100.0), DVec3::new(2.0, 1.0, 0.7), 10.0, None),
            corner(900.0, y + 300.0, 200.0),
        ];
        let mut made = run(straight_end(&a, None), straight_end(&b, None), via);
        made.id = format!("hose-{i}");
        made.name = format!("Hose {i} from the pump to the rail");
        made.slack_pct = Some(3.0);
        runs.push(made);
    }
    let first = runs[0].clone();
    let mut bay = bay(ports, first);
    bay.routings[0].runs = runs;
    common::answer(&bay)
}

fn sheet(answer: &Answer) -> Sheet {
    Sheet::new(answer, SheetInfo::default())
}

#[divan::bench(sample_count = 10)]
fn pdf_of_60_hoses(bencher: Bencher) {
    let large = large();
    let write = || Format::Pdf.write(&sheet(&large), Paper::A4).expect("written");
    assert!(write().starts_with(b"%PDF-"));
    bencher.bench_local(|| black_box(write()));
}

#[divan::bench(sample_count = 10)]
fn solved_checked_and_written(bencher: Bencher) {
    bencher.bench_local(|| {
        let large = large();
        black_box(Format::Pdf.write(&sheet(&large), Paper::A4).expect("written"))
    });
}

#[divan::bench(sample_count = 10)]
fn labels_of_60_hoses(bencher: Bencher) {
    let sheet = sheet(&large());
    bencher.bench_local(|| black_box(labels(&sheet, &LabelKind::ALL, Paper::A4).expect("written")));
}

#[divan::bench(sample_count = 10)]
fn template_of_one_hose(bencher: Bencher) {
    let answer = large();
    bencher.bench_local(|| {
        let made = Template::new(&answer, 0, SheetInfo::default()).expect("solved");
        black_box(template(&made, Paper::A4).expect("written"))
    });
}
