//! The layout of the strip on a small bay, the demo car, and hoses of every length.

use glam::{DVec2, dvec2};
use proptest::prelude::*;

use super::*;
use crate::app::fixture;
use crate::checks::check;
use crate::model::Bay;

fn measure(text: &str) -> f64 {
    6.5 * text.chars().count() as f64
}

fn frame(width: f64, height: f64) -> Area {
    Area { min: dvec2(40.0, 700.0), max: dvec2(40.0, 700.0) + DVec2::new(width, height) }
}

/// Every hose of a bay, laid out.
fn strips(bay: &Bay, frame: Area, unit: LengthUnit) -> Vec<(RunSolution, StripLayout)> {
    let solved = crate::engine::solve(bay);
    let findings = check(bay, &bay.routings[0], &solved.routings[0]);
    let findings: Vec<_> = findings.into_iter().map(Arc::new).collect();
    let told = &Findings::of(&findings, &bay.routings[0], &solved.routings[0]);
    let runs = bay.routings[0].runs.iter().zip(&solved.routings[0].runs);
    runs.filter_map(|(run, solved)| {
        let solved = solved.as_deref().ok().filter(|solved| solved.cut_length_mm > 0.0)?;
        let shown = Shown {
            run,
            solved,
            findings: &findings,
            told,
            looked_at: None,
            unit,
            installed: None,
        };
        Some((solved.clone(), StripLayout::new(shown, frame, &measure)))
    })
    .collect()
}

fn assert_legible(strip: &StripLayout, frame: Area) {
    for label in &strip.labels {
        assert!(label.span.0 >= frame.min.x && label.span.1 <= frame.max.x, "{label:?}");
        assert!(strip.heights.row(label.row) + ROW <= frame.max.y, "{label:?}");
    }
    for (i, a) in strip.labels.iter().enumerate() {
        assert!(strip.labels[i + 1..].iter().all(|b| !a.touches(b)), "{a:?}");
    }
    let cuts = strip.labels.iter().filter(|label| label.kind == LabelKind::Cut);
    assert_eq!(cuts.count(), 2);
}

proptest! {
    #[test]
    fn short_and_long_hoses_are_legible(
        scale in 0.02_f64..20.0,
        width in 420.0_f64..2400.0,
        tall in any::<bool>(),
        inch in any::<bool>(),
    ) {
        let unit = if inch { LengthUnit::Inch } else { LengthUnit::Mm };
        let frame = frame(width, if tall { 178.0 } else { 104.0 });
        let mut bay = fixture::bay();
        for port in &mut bay.ports {
            port.at *= scale;
        }
        for via in bay.routings[0].runs.iter_mut().flat_map(|run| &mut run.via) {
            let at = scale * via.at();
            match via {
                crate::model::Via::Corner(corner) => corner.at = at,
                crate::model::Via::Clamp(clamp) => clamp.at = at,
            }
        }
        for (_, strip) in strips(&bay, frame, unit) {
            assert_legible(&strip, frame);
        }
    }
}

#[test]
fn the_demo_car_is_legible_at_both_heights() {
    for height in [104.0, 178.0] {
        for unit in [LengthUnit::Inch, LengthUnit::Mm] {
            for width in [430.0, 870.0, 1740.0] {
                let frame = frame(width, height);
                for (_, strip) in strips(&fixture::car(), frame, unit) {
                    assert_legible(&strip, frame);
                    let Heights { cursor, curve, hose, rows } = strip.heights;
                    assert!(frame.min.y < cursor && cursor < curve.1 && curve.0 < curve.1);
                    assert!(curve.1 < hose.0 && hose.0 < hose.1 && rows >= 2);
                }
            }
        }
    }
}

#[test]
fn what_is_too_tight_is_said_with_both_figures_and_marked() {
    let all = strips(&fixture::car(), frame(870.0, 104.0), LengthUnit::Inch);
    let (run, strip) = &all[0];
    let tight: Vec<_> = strip.bends.iter().filter(|bend| bend.is_tight).collect();
    assert!(!tight.is_empty());
    for bend in tight {
        assert!(bend.share > 1.0);
        assert!(strip.curve_y(bend.share) < strip.curve_y(1.0), "above the limit's line");
        assert!(bend.said.contains(", minimum 4 1/4"), "{}", bend.said);
    }
    // One is the cause, the other comes of it.
    let marked = strip.bends.iter().filter(|bend| {
        bend.is_tight && strip.marks.iter().any(|mark| mark.x >= bend.from && mark.x <= bend.to)
    });
    assert_eq!(marked.count(), 1);
    let said = strip.labels.iter().filter(|label| label.text.contains("minimum 4 1/4"));
    assert!(said.count() >= 2, "{:?}", strip.labels);
    assert!(run.radius_limit_mm > 0.0 && strip.limit == "R 4 1/4 in");
}

#[test]
fn from_the_drawing_to_the_bench_and_back() {
    for run in crate::engine::solve(&fixture::car()).routings[0].runs.iter().flatten() {
        for k in 0..=50 {
            let at = run.centreline_mm * f64::from(k) / 50.0;
            let back = run.drawn_at_mm(run.on_bench_mm(at));
            assert!((back - at).abs() < 1e-9, "{at} {back}");
        }
    }
}

#[test]
fn the_hose_is_to_scale_and_what_is_on_it_in_order() {
    for (run, strip) in strips(&fixture::car(), frame(1000.0, 178.0), LengthUnit::Mm) {
        let whole = strip.right - strip.left;
        assert!((strip.bench_mm(strip.right) - run.cut_length_mm).abs() < 1e-9);
        for clamp in &run.clamps {
            let share = run.on_bench_mm(clamp.at_mm) / run.cut_length_mm;
            let x = strip.left + share * whole;
            let mark = strip.clamp_at(x).expect("the clamp");
            assert!((mark.middle - x).abs() < 1e-9);
            assert_eq!(strip.thing_at(x), Some(&mark.thing));
        }
        let middles: Vec<f64> =
            strip.bends.iter().map(|bend| f64::midpoint(bend.from, bend.to)).collect();
        assert!(middles.is_sorted());
        for stretch in strip.stretches() {
            let middle = f64::midpoint(stretch.0, stretch.1);
            assert!(strip.bend_at(middle).is_none(), "{stretch:?}");
        }
    }
}

#[test]
fn beyond_the_cut_ends_the_end_is_meant() {
    let (run, strip) = strips(&fixture::car(), frame(900.0, 104.0), LengthUnit::Mm).remove(0);
    assert_eq!(strip.bench_mm(strip.left - 30.0), 0.0);
    assert!((strip.bench_mm(strip.right + 30.0) - run.cut_length_mm).abs() < 1e-9);
    assert_eq!(strip.words_at(&run, 0.0, LengthUnit::Mm), ["0 mm from A", "in the socket"]);
}
