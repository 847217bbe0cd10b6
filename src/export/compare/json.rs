//! The comparison for machines.
//!
//! `"report": "hosewright-compare"`, `"version": 1`. Values are exact, in the unit that stands beside
//! them, money in the bay file's own; a value that is not known is null, and what a sum lacks is listed.
//! Keys without a unit are words as they are read.

use serde::Serialize;

use crate::units::LengthUnit;

use crate::report::compare::{Cell, Comparison, Row, RunRow};

#[derive(Serialize)]
struct CompareJson<'a> {
    report: &'static str,
    version: u32,
    title: &'a str,
    file: Option<&'a str>,
    show_units: &'static str,
    routings: Vec<RoutingJson<'a>>,
    sentence: &'a str,
    figures: Vec<FigureJson<'a>>,
    runs: Vec<RunJson<'a>>,
    remarks: &'a [String],
}

#[derive(Serialize)]
struct RoutingJson<'a> {
    id: &'a str,
    name: &'a str,
    letter: String,
}

#[derive(Serialize)]
struct FigureJson<'a> {
    figure: &'a str,
    label: &'a str,
    unit: &'static str,
    /// In the order of the routings.
    values: Vec<ValueJson<'a>>,
}

#[derive(Serialize)]
struct ValueJson<'a> {
    routing: &'a str,
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<f64>,
    /// Whether nothing of it is unknown.
    known: bool,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    missing: &'a [String],
    text: &'a str,
    detail: &'a str,
    run: Option<&'a str>,
    /// What is better about it; empty where nothing is to be told.
    better: &'static str,
}

#[derive(Serialize)]
struct RunJson<'a> {
    run: &'a str,
    name: &'a str,
    /// In the order of the routings; null where the routing has no such hose.
    routings: Vec<Option<RunCellJson<'a>>>,
    differences: &'a [String],
}

#[derive(Serialize)]
struct RunCellJson<'a> {
    cut_length_mm: Option<f64>,
    cut: &'a str,
    hose: &'a str,
    ends: &'a str,
    bend: &'a str,
    clearance: &'a str,
    pressure_drop_bar: Option<f64>,
    pressure_drop: &'a str,
    fails: usize,
    warnings: usize,
}

/// The whole document, with a line end.
pub fn json(comparison: &Comparison) -> String {
    let ids: Vec<&str> = comparison.routings.iter().map(|routing| routing.id.as_str()).collect();
    crate::export::json::pretty(&CompareJson {
        report: "hosewright-compare",
        version: 1,
        title: &comparison.title,
        file: comparison.info.file_name.as_deref(),
        show_units: match comparison.unit {
            LengthUnit::Inch => "inch",
            LengthUnit::Mm => "mm",
        },
        routings: comparison
            .routings
            .iter()
            .map(|one| RoutingJson { id: &one.id, name: &one.name, letter: one.letter.to_string() })
            .collect(),
        sentence: &comparison.sentence,
        figures: comparison.rows.iter().map(|row| figure(row, &ids)).collect(),
        runs: comparison.runs.iter().map(run).collect(),
        remarks: &comparison.remarks,
    })
}

fn figure<'a>(row: &'a Row, ids: &[&'a str]) -> FigureJson<'a> {
    let value = |(cell, routing): (&'a Cell, &&'a str)| ValueJson {
        routing,
        value: cell.value,
        limit: cell.limit,
        known: !cell.is_unknown,
        missing: &cell.missing,
        text: &cell.text,
        detail: &cell.detail,
        run: cell.run.as_deref(),
        better: cell.word,
    };
    FigureJson {
        figure: &row.id,
        label: &row.label,
        unit: row.unit,
        values: row.cells.iter().zip(ids).map(value).collect(),
    }
}

fn run(row: &RunRow) -> RunJson<'_> {
    let cells = row.cells.iter().map(|cell| {
        cell.as_ref().map(|cell| RunCellJson {
            cut_length_mm: cell.cut_mm,
            cut: &cell.cut,
            hose: &cell.hose,
            ends: &cell.ends,
            bend: &cell.bend,
            clearance: &cell.gap,
            pressure_drop_bar: cell.drop_bar,
            pressure_drop: &cell.drop,
            fails: cell.counts.faults,
            warnings: cell.counts.warnings,
        })
    });
    RunJson {
        run: &row.id,
        name: &row.name,
        routings: cells.collect(),
        differences: &row.differences,
    }
}
