//! What to mark on the hose, and where from cut end A.

use crate::drawing::{Drawing, StripBend, StripMark, strip};
use crate::engine::{Bend, RunSolution};
use crate::units::{Angle, EPS_MM, Length, LengthUnit};

use super::{Mark, MarkKind, Shown};

/// Width of the page's text, mm: that of A4 (210) within margins that Letter (216) has too.
pub(super) const WIDTH_MM: f64 = 186.0;

/// Cut ends, socket mouths, clamps and, for information, bends; in order from A.
pub(super) fn marks(run: &RunSolution, unit: LengthUnit) -> Vec<Mark> {
    let cut = run.cut_length_mm;
    let step = unit.bench_step_mm();
    let bench_mm = (cut / step - EPS_MM).ceil() * step;
    let mark = |kind, word: &str, mm: f64| Mark {
        kind,
        word: word.to_owned(),
        short: word.to_owned(),
        from_a: Shown::nearest(mm, unit),
    };
    let mut marks = vec![
        mark(MarkKind::Cut, "cut end A", 0.0),
        mark(MarkKind::SocketEdge, "socket mouth A", run.from.end.socket_mm),
        // From the end as it is cut on the bench, so that what stands between the two is the socket.
        mark(MarkKind::SocketEdge, "socket mouth B", bench_mm - run.to.end.socket_mm),
        Mark { from_a: Shown::bench(cut, unit), ..mark(MarkKind::Cut, "cut end B", cut) },
    ];
    for (i, clamp) in run.clamps.iter().enumerate() {
        marks.push(mark(
            MarkKind::Clamp,
            &clamp_word(i, run.clamps.len()),
            run.on_bench_mm(clamp.at_mm),
        ));
    }
    for bend in run.bends().iter().filter(|bend| is_shown(bend, run)) {
        let short = bend_text(bend, run, unit);
        let word = format!("middle of bend {short}");
        let at_mm = run.on_bench_mm(bend.at_mm);
        marks.push(Mark { short, ..mark(MarkKind::Bend, &word, at_mm) });
    }
    marks.sort_by(|a, b| a.from_a.mm.total_cmp(&b.from_a.mm));
    marks
}

fn clamp_word(index: usize, count: usize) -> String {
    if count > 1 { format!("clamp {}", index + 1) } else { "clamp".to_owned() }
}

/// `63° R 120`; with the minimum where it is below that.
fn bend_text(bend: &Bend, run: &RunSolution, unit: LengthUnit) -> String {
    let angle = Angle::from_deg(bend.angle_deg.round()).show();
    let number = |mm: f64| Length::from_mm(mm).number(unit);
    let got = format!("{angle} R {}", number(bend.radius_mm));
    if is_tight(bend, run) {
        format!("{got}, minimum {}", number(run.radius_limit_mm))
    } else {
        got
    }
}

fn is_tight(bend: &Bend, run: &RunSolution) -> bool {
    bend.radius_mm < run.radius_limit_mm - EPS_MM
}

/// A bend of less than half a degree is straight to the eye; shown only where something is wrong
/// with it.
fn is_shown(bend: &Bend, run: &RunSolution) -> bool {
    bend.angle_deg >= 0.5 || is_tight(bend, run)
}

/// The strip with all of them.
pub(super) fn drawing(name: &str, run: &RunSolution, marks: &[Mark], unit: LengthUnit) -> Drawing {
    let strip_marks: Vec<StripMark> = marks
        .iter()
        .filter(|mark| mark.kind != MarkKind::Bend)
        .map(|mark| StripMark {
            at_mm: mark.from_a.mm,
            figure: figure(mark, unit),
            word: mark.word.clone(),
            grip_mm: grip(mark, run),
        })
        .collect();
    let bends: Vec<StripBend> = run
        .bends()
        .iter()
        .filter(|bend| is_shown(bend, run))
        .map(|bend| {
            let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
            StripBend {
                span_mm: [bend.at_mm - half, bend.at_mm + half].map(|mm| run.on_bench_mm(mm)),
                text: bend_text(bend, run, unit),
                is_tight: is_tight(bend, run),
            }
        })
        .collect();
    let sockets = [run.from.end.socket_mm, run.to.end.socket_mm];
    let title = format!("{name} laid straight, with its marks from cut end A");
    strip(title, run.cut_length_mm, sockets, &strip_marks, &bends, WIDTH_MM)
}

fn figure(mark: &Mark, unit: LengthUnit) -> String {
    if mark.from_a.mm == 0.0 {
        return "0".to_owned();
    }
    // The unit stands in the heading.
    mark.from_a.main.trim_end_matches(unit.sign()).trim_end().to_owned()
}

fn grip(mark: &Mark, run: &RunSolution) -> Option<f64> {
    let clamp = run.clamps.iter().find(|clamp| {
        mark.kind == MarkKind::Clamp && run.on_bench_mm(clamp.at_mm) == mark.from_a.mm
    });
    clamp.map(|clamp| clamp.half_grip_mm)
}
