//! The rows of what a routing takes: hose, ends, money, mass.

use crate::engine::compare::{EndUse, HoseUse, Sum};
use crate::report::sheet::dash_text;

use super::all::{All, One};
use super::aspect::Aspect;
use super::judge::Words;
use super::row::{by_aspect, cells, plain};
use super::words::{angle, hose_kind, length, money, sum};
use super::{Cell, Row};

pub(super) fn hose(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| {
        let pieces = one.figures.runs.len();
        Cell {
            value: one.figures.hose_mm,
            text: one
                .figures
                .hose_mm
                .map_or_else(|| super::words::NOT_KNOWN.to_owned(), |mm| length(mm, all.unit())),
            detail: super::words::count(pieces, "piece"),
            is_unknown: one.figures.hose_mm.is_none(),
            ..Cell::default()
        }
    });
    let words = Words { better: "shorter", best: "shortest" };
    by_aspect(all, ("hose", "Hose to cut, lengths rounded up", "mm"), words, Aspect::Hose, cells)
}

/// One row for each construction and size: not judged, for less of one is more of another.
pub(super) fn hose_kinds(all: &All<'_>) -> Vec<Row> {
    let mut kinds: Vec<(&str, u32)> = Vec::new();
    for used in all.routings.iter().flat_map(|one| &one.figures.hoses) {
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
            label: hose_kind(construction, dash),
            is_detail: true,
            unit: "mm",
            cells: cells(all, |_, one| match one.figures.hoses.iter().find(of) {
                None => Cell { value: Some(0.0), text: "none".to_owned(), ..Cell::default() },
                Some(used) => Cell {
                    value: used.length_mm,
                    text: used.length_mm.map_or_else(
                        || super::words::NOT_KNOWN.to_owned(),
                        |mm| length(mm, all.unit()),
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
pub(super) fn end_kinds(all: &All<'_>) -> Vec<Row> {
    let mut kinds: Vec<&EndUse> = Vec::new();
    let alike =
        |a: &EndUse, b: &EndUse| (&a.name, a.dash, a.angle_deg) == (&b.name, b.dash, b.angle_deg);
    for used in all.routings.iter().flat_map(|one| &one.figures.ends) {
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
        let label = format!("{size} {}: {}", angle(kind.angle_deg), kind.name);
        let count = |one: &One<'_>| {
            let used = one.figures.ends.iter().find(|used| alike(used, kind));
            used.map_or(0.0, |used| used.count as f64)
        };
        Row { is_detail: true, ..plain(all, &id, &label, "", count) }
    };
    kinds.into_iter().map(row).collect()
}

fn sum_cell(of: &Sum, number: impl Fn(f64) -> String, what: [&str; 2]) -> Cell {
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

pub(super) fn cost(all: &All<'_>) -> Row {
    let cells = cells(all, |_, one| sum_cell(&one.figures.cost, money, ["price", "prices"]));
    let words = Words { better: "cheaper", best: "cheapest" };
    by_aspect(all, ("cost", "Hose and ends to buy", ""), words, Aspect::Cost, cells)
}

pub(super) fn mass(all: &All<'_>) -> Row {
    let shown = |kg: f64| super::words::mass(kg, all.unit());
    let cells = cells(all, |_, one| sum_cell(&one.figures.mass_kg, shown, ["part", "parts"]));
    let words = Words { better: "lighter", best: "lightest" };
    by_aspect(all, ("mass", "Mass of hose and ends, dry", "kg"), words, Aspect::Mass, cells)
}
