//! The figures as a table, what concerns safety first.

use std::cmp::Ordering;

use crate::engine::compare::{Against, EndUse, Found, HoseUse, Sum};

use super::aspect::{Aspect, Basis, SAME_MM, SAME_SHARE, share};
use super::build::{All, One};
use super::judge::{Words, judge, more_is_better};
use super::words::{
    angle, found, gap, hose_kind, hose_length, kilograms, lack, length, money, radius, solid_name,
    sum,
};
use super::{Cell, Row};
use crate::export::sheet::dash_text;

const NOTHING_BENDS: &str = "nothing bends";
const NOTHING_NEAR: &str = "nothing to keep off";

pub(super) fn rows(all: &All<'_>) -> Vec<Row> {
    let moves = all.options.iter().any(|one| one.figures.moves);
    let mut rows = vec![faults(all), warnings(all), notes(all)];
    for basis in [Basis::Drawn, Basis::Lie, Basis::Poses] {
        if basis != Basis::Poses || moves {
            rows.push(room(all, basis));
        }
    }
    for basis in [Basis::Drawn, Basis::Lie, Basis::Poses] {
        if basis != Basis::Poses || moves {
            rows.push(bends(all, basis));
        }
    }
    rows.push(span(all));
    if moves {
        rows.push(slack(all));
    }
    rows.push(hose(all));
    rows.push(cost(all));
    rows.push(mass(all));
    rows.push(plain(all, "clamps", "Clamps", "", |one| one.figures.clamps as f64));
    rows.extend(hose_kinds(all));
    rows.extend(end_kinds(all));
    rows
}

/// A row with a word where the order tells one.
fn judged(
    all: &All<'_>,
    (id, label, unit): (&str, &str, &'static str),
    words: Words,
    cells: Vec<Cell>,
    order: impl Fn(usize, usize) -> Option<Ordering>,
) -> Row {
    // What reads the same is told the same.
    let reads_same = |a: usize, b: usize| {
        let (a, b) = (&cells[a], &cells[b]);
        a.text == b.text && !a.is_unknown && !b.is_unknown
    };
    let order = |a: usize, b: usize| {
        order(a, b).map(|told| if reads_same(a, b) { Ordering::Equal } else { told })
    };
    let told = judge(all.options.len(), order, words);
    let cells = cells.into_iter().zip(told).map(|(cell, word)| Cell { word, ..cell });
    Row { id: id.to_owned(), label: label.to_owned(), unit, cells: cells.collect() }
}

fn by_aspect(
    all: &All<'_>,
    names: (&str, &str, &'static str),
    words: Words,
    aspect: Aspect,
    cells: Vec<Cell>,
) -> Row {
    judged(all, names, words, cells, |one, other| all.order(aspect, one, other))
}

fn cells(all: &All<'_>, cell: impl Fn(usize, &One<'_>) -> Cell) -> Vec<Cell> {
    all.options.iter().enumerate().map(|(place, one)| cell(place, one)).collect()
}

/// A figure that is not judged.
fn plain(
    all: &All<'_>,
    id: &str,
    label: &str,
    unit: &'static str,
    value: impl Fn(&One<'_>) -> f64,
) -> Row {
    let cells = cells(all, |_, one| counted(value(one)));
    Row { id: id.to_owned(), label: label.to_owned(), unit, cells }
}

fn counted(value: f64) -> Cell {
    Cell { value: Some(value), text: value.to_string(), ..Cell::default() }
}

const FEWER: Words = Words { better: "fewer", best: "fewest" };

fn faults(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| counted(one.counts.fails as f64));
    by_aspect(all, ("fails", "Faults, to mend", ""), FEWER, Aspect::Faults, cells)
}

fn warnings(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| counted(one.counts.warns as f64));
    by_aspect(all, ("warnings", "Warnings, to look at", ""), FEWER, Aspect::Warnings, cells)
}

fn notes(all: &All<'_>) -> Row {
    plain(all, "notes", "Notes", "", |one| one.counts.notes as f64)
}

/// The worst place of one option as a cell.
fn worst_cell(
    all: &All<'_>,
    place: usize,
    worst: &Found<(usize, Against)>,
    nothing: &str,
    say: impl Fn(&Against) -> String,
) -> Cell {
    let known = worst.known();
    let run = known.and_then(|(run, _)| all.options[place].figures.runs.get(*run));
    let detail = match worst {
        Found::Known((_, against)) => {
            let mut words = vec![run.map_or_else(String::new, |run| run.name.clone())];
            if against.solid.is_some() {
                words = vec![format!("{} at {}", words.concat(), solid_name(all.bay, against))];
            }
            words.push(format!("{} from cut end A", length(against.from_a_mm, all.unit())));
            words.extend(against.pose.as_ref().map(|pose| format!("with {pose}")));
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
        Basis::Drawn => ("gap_drawn", "Nearest solid, as drawn", "mm"),
        Basis::Lie => ("gap_lie", "Nearest solid, as it lies", "mm"),
        Basis::Poses => ("gap_poses", "Nearest solid, worst pose", "mm"),
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
        Basis::Lie => ("radius_lie", "Tightest bend, as it lies", "mm"),
        Basis::Poses => ("radius_poses", "Tightest bend, worst pose", "mm"),
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
            text: found(&longest, "no free span", |(_, mm, _)| length(*mm, all.unit())),
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
    by_aspect(all, ("free_span", "Longest free span", "mm"), words, Aspect::Span, cells)
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
    let mut row =
        by_aspect(all, ("slack_needed", "Slack for every pose", "%"), words, Aspect::Slack, cells);
    // All enough, or all not: which of them reads better tells nothing.
    let enough = |one: &One<'_>| one.figures.worst_lack().known().is_some_and(|l| l.1.pct() <= 0.0);
    for (cell, one) in row.cells.iter_mut().zip(&all.options) {
        if cell.word == super::judge::SAME {
            cell.word = if enough(one) { "enough" } else { "" };
        }
    }
    row
}

fn hose(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| {
        let pieces = one.figures.runs.len();
        Cell {
            value: one.figures.hose_mm,
            text: one.figures.hose_mm.map_or_else(
                || super::words::NOT_KNOWN.to_owned(),
                |mm| hose_length(mm, all.unit()),
            ),
            detail: super::words::count(pieces, "piece"),
            is_unknown: one.figures.hose_mm.is_none(),
            ..Cell::default()
        }
    });
    let words = Words { better: "shorter", best: "shortest" };
    by_aspect(all, ("hose", "Hose, cut lengths together", "mm"), words, Aspect::Hose, cells)
}

/// One row for each construction and size: not judged, for less of one is more of another.
fn hose_kinds(all: &All<'_>) -> Vec<Row> {
    let mut kinds: Vec<(&str, u32)> = Vec::new();
    for used in all.options.iter().flat_map(|one| &one.figures.hoses) {
        let kind = (used.construction.as_str(), used.dash);
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    kinds.sort_by_key(|(_, dash)| *dash);
    let row = |(construction, dash): (&str, u32)| {
        let of = |used: &&HoseUse| (used.construction.as_str(), used.dash) == (construction, dash);
        Row {
            id: format!("hose:{construction}:{dash}"),
            label: format!("  {}", hose_kind(construction, dash)),
            unit: "mm",
            cells: cells(all, |_, one| match one.figures.hoses.iter().find(of) {
                None => Cell { value: Some(0.0), text: "none".to_owned(), ..Cell::default() },
                Some(used) => Cell {
                    value: used.length_mm,
                    text: used.length_mm.map_or_else(
                        || super::words::NOT_KNOWN.to_owned(),
                        |mm| hose_length(mm, all.unit()),
                    ),
                    detail: super::words::count(used.pieces, "piece"),
                    is_unknown: used.length_mm.is_none(),
                    ..Cell::default()
                },
            }),
        }
    };
    kinds.into_iter().map(row).collect()
}

/// One row for each kind, size and angle of end.
fn end_kinds(all: &All<'_>) -> Vec<Row> {
    let mut kinds: Vec<&EndUse> = Vec::new();
    let alike =
        |a: &EndUse, b: &EndUse| (&a.name, a.dash, a.angle_deg) == (&b.name, b.dash, b.angle_deg);
    for used in all.options.iter().flat_map(|one| &one.figures.ends) {
        if !kinds.iter().any(|known| alike(known, used)) {
            kinds.push(used);
        }
    }
    kinds.sort_by(|a, b| {
        (a.dash, &a.name).cmp(&(b.dash, &b.name)).then(a.angle_deg.total_cmp(&b.angle_deg))
    });
    let row = |kind: &EndUse| {
        let size = dash_text(kind.dash);
        let id = format!("end:{}:{}:{}", kind.name, kind.dash, kind.angle_deg);
        let label = format!("  {size} {}: {}", angle(kind.angle_deg), kind.name);
        let count = |one: &One<'_>| {
            let used = one.figures.ends.iter().find(|used| alike(used, kind));
            used.map_or(0.0, |used| used.count as f64)
        };
        plain(all, &id, &label, "", count)
    };
    kinds.into_iter().map(row).collect()
}

fn sum_cell(of: &Sum, number: fn(f64) -> String, what: [&str; 2]) -> Cell {
    let missing: Vec<String> = of.missing.iter().map(|part| part.what.clone()).collect();
    let detail =
        if missing.is_empty() { String::new() } else { format!("without {}", missing.join("; ")) };
    Cell {
        value: Some(of.known),
        text: sum(of, number, what),
        detail,
        is_unknown: !missing.is_empty(),
        missing,
        ..Cell::default()
    }
}

fn cost(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| sum_cell(&one.figures.cost, money, ["price", "prices"]));
    let words = Words { better: "cheaper", best: "cheapest" };
    by_aspect(all, ("cost", "Hose and ends to buy", ""), words, Aspect::Cost, cells)
}

fn mass(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| sum_cell(&one.figures.mass_kg, kilograms, ["part", "parts"]));
    let words = Words { better: "lighter", best: "lightest" };
    by_aspect(all, ("mass", "Mass of hose and ends, dry", "kg"), words, Aspect::Mass, cells)
}
