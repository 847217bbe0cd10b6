//! The figures as a table, what concerns safety first.

use crate::engine::compare::{Against, Found};

use super::all::{All, One};
use super::aspect::{Aspect, SAME_MM, SAME_SHARE};
use super::basis::{Basis, share};
use super::judge::{Words, more_is_better};
use super::row::{by_aspect, cells, counted, judged, plain};
use super::takes::{cost, end_kinds, hose, hose_kinds, mass};
use super::words::{found, gap, lack, length, obstacle_name, radius};
use super::{Cell, Row};

const NOTHING_BENDS: &str = "nothing bends";
const NOTHING_NEAR: &str = "no obstacle near";

pub(super) fn rows(all: &All<'_>) -> Vec<Row> {
    let moves = all.routings.iter().any(|one| one.figures.moves);
    let mut rows = vec![faults(all), warnings(all), notes(all)];
    for basis in [Basis::Drawn, Basis::Installed, Basis::Positions] {
        if basis != Basis::Positions || moves {
            rows.push(room(all, basis));
        }
    }
    for basis in [Basis::Drawn, Basis::Installed, Basis::Positions] {
        if basis != Basis::Positions || moves {
            rows.push(bends(all, basis));
        }
    }
    rows.push(span(all));
    if moves {
        rows.push(slack(all));
    }
    rows.push(hose(all));
    rows.push(cost(all));
    rows.push(drop(all));
    rows.push(mass(all));
    rows.push(plain(all, "clamps", "Clamps", "", |one| one.figures.clamps as f64));
    rows.extend(hose_kinds(all));
    rows.extend(end_kinds(all));
    rows
}

const FEWER: Words = Words { better: "fewer", best: "fewest" };

fn faults(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| counted(one.counts.faults as f64));
    by_aspect(all, ("fails", "Faults", ""), FEWER, Aspect::Faults, cells)
}

fn warnings(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| counted(one.counts.warnings as f64));
    by_aspect(all, ("warnings", "Warnings", ""), FEWER, Aspect::Warnings, cells)
}

fn notes(all: &All<'_>) -> Row {
    plain(all, "notes", "Notes", "", |one| one.counts.notes as f64)
}

/// The worst place of one routing as a cell.
fn worst_cell(
    all: &All<'_>,
    place: usize,
    worst: &Found<(usize, Against)>,
    nothing: &str,
    say: impl Fn(&Against) -> String,
) -> Cell {
    let known = worst.known();
    let run = known.and_then(|(run, _)| all.routings[place].figures.runs.get(*run));
    let detail = match worst {
        Found::Known((_, against)) => {
            let mut words = vec![run.map_or_else(String::new, |run| run.name.clone())];
            if against.obstacle.is_some() {
                words = vec![format!("{} at {}", words.concat(), obstacle_name(all.bay, against))];
            }
            words.push(format!("{} from cut end A", length(against.from_a_mm, all.unit())));
            words.extend(against.position.as_ref().map(|position| format!("with {position}")));
            words.join(", ")
        }
        Found::Nothing => String::new(),
        Found::NotKnown(why) => (*why).to_owned(),
    };
    Cell {
        value: known.map(|(_, against)| against.mm),
        limit: known.map(|(_, against)| against.limit_mm),
        text: found(worst, nothing, |(_, against)| say(against)),
        detail,
        run: run.map(|run| run.id.clone()),
        is_unknown: worst.is_not_known(),
        ..Cell::default()
    }
}

fn room(all: &All<'_>, basis: Basis) -> Row {
    let names = match basis {
        Basis::Drawn => ("gap_drawn", "Nearest obstacle, as drawn", "mm"),
        Basis::Installed => ("gap_installed", "Nearest obstacle, as installed", "mm"),
        Basis::Positions => ("gap_positions", "Nearest obstacle, worst position", "mm"),
    };
    let worst = |place| all.gap(place, basis);
    let cells = cells(all, |place, _| {
        worst_cell(all, place, &worst(place), NOTHING_NEAR, |near| gap(near, all.unit()))
    });
    let spare = |place| worst(place).known().map(|(_, near)| near.spare_mm());
    let words = Words { better: "more room", best: "most room" };
    judged(all, names, words, cells, |a, b| more_is_better(spare(a), spare(b), SAME_MM))
}

fn bends(all: &All<'_>, basis: Basis) -> Row {
    let names = match basis {
        Basis::Drawn => ("radius_drawn", "Tightest bend, as drawn", "mm"),
        Basis::Installed => ("radius_installed", "Tightest bend, as installed", "mm"),
        Basis::Positions => ("radius_positions", "Tightest bend, worst position", "mm"),
    };
    let worst = |place| all.radius(place, basis);
    let cells = cells(all, |place, _| {
        worst_cell(all, place, &worst(place), NOTHING_BENDS, |bend| radius(bend, all.unit()))
    });
    let share = |place| share(&worst(place));
    let words = Words { better: "gentler", best: "gentlest" };
    judged(all, names, words, cells, |a, b| more_is_better(share(a), share(b), SAME_SHARE))
}

fn span(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| {
        let longest = one.figures.longest_span();
        let run = longest.known().and_then(|(run, ..)| one.figures.runs.get(*run));
        let from = |mm: f64| format!("from {} on", length(mm, all.unit()));
        Cell {
            value: longest.known().map(|(_, mm, _)| *mm),
            text: found(&longest, "no free length", |(_, mm, _)| length(*mm, all.unit())),
            detail: match (&longest, run) {
                (Found::Known((_, _, at)), Some(run)) => format!("{}, {}", run.name, from(*at)),
                (Found::NotKnown(why), _) => (*why).to_owned(),
                _ => String::new(),
            },
            run: run.map(|run| run.id.clone()),
            is_unknown: longest.is_not_known(),
            ..Cell::default()
        }
    });
    let words = Words { better: "shorter", best: "shortest" };
    by_aspect(all, ("free_span", "Longest free length", "mm"), words, Aspect::Span, cells)
}

/// What is not known is no part of the greatest: it is at least that of the known ones.
fn drop(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| {
        let (greatest, not_known) = one.figures.drops();
        let name = |place: usize| one.figures.runs.get(place).map_or("", |run| &run.name);
        let words = greatest.map(|(_, bar)| super::words::drop(bar, all.unit()));
        let missing: Vec<String> = not_known.iter().map(|place| name(*place).to_owned()).collect();
        let text = match (words, missing.is_empty()) {
            (Some(words), true) => words,
            (Some(words), false) => format!("{words} or more"),
            (None, true) => super::words::NO_FLOW.to_owned(),
            (None, false) => super::words::NOT_KNOWN.to_owned(),
        };
        let worst = greatest.map(|(place, _)| name(place).to_owned());
        let lacking = (!missing.is_empty()).then(|| format!("unknown: {}", missing.join(", ")));
        let detail: Vec<String> = worst.into_iter().chain(lacking).collect();
        Cell {
            value: greatest.map(|(_, bar)| bar),
            text,
            detail: detail.join("; "),
            run: greatest.and_then(|(place, _)| Some(one.figures.runs.get(place)?.id.clone())),
            is_unknown: !missing.is_empty(),
            missing,
            ..Cell::default()
        }
    });
    let words = Words { better: "less", best: "least" };
    by_aspect(
        all,
        ("pressure_drop", "Pressure drop, worst hose", "bar"),
        words,
        Aspect::Drop,
        cells,
    )
}

fn slack(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| {
        let worst = one.figures.worst_lack();
        let run = worst.known().and_then(|(run, _)| one.figures.runs.get(*run));
        Cell {
            value: worst.known().and_then(|(_, lack)| lack.needed_pct),
            text: found(&worst, "no end moves", |(_, one)| lack(*one)),
            detail: match (&worst, run) {
                (Found::NotKnown(why), _) => (*why).to_owned(),
                (_, Some(run)) => run.name.clone(),
                _ => String::new(),
            },
            run: run.map(|run| run.id.clone()),
            is_unknown: worst.is_not_known(),
            ..Cell::default()
        }
    });
    let words = Words { better: "lacks less", best: "lacks least" };
    let mut row = by_aspect(
        all,
        ("slack_needed", "Slack for every position", "%"),
        words,
        Aspect::Slack,
        cells,
    );
    // All enough, or all not: which of them reads better tells nothing.
    let enough = |one: &One<'_>| one.figures.worst_lack().known().is_some_and(|l| l.1.pct() <= 0.0);
    for (cell, one) in row.cells.iter_mut().zip(&all.routings) {
        if cell.word == super::judge::SAME {
            cell.word = if enough(one) { super::judge::ENOUGH } else { "" };
        }
    }
    row
}
