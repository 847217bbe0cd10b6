//! The cut list and the shopping list for machines.
//!
//! `"cutlist": "hosewright-cutlist"`, `"version": 1`. Lengths are millimetres, prices the bay file's own
//! money; a price that is not known is null and in no sum.

use serde::Serialize;

use crate::engine::cutting::{
    Amount, BarCuts, CutList, KERF_SOURCE, KindCuts, Line, Piece, Proof, Remakes, ShoppingList,
    Spare, SpareHose, Supply, TRIM_SOURCE, Total, WhyUncut,
};
use crate::model::{Bay, Routing};

#[derive(Serialize)]
struct CutlistJson<'a> {
    cutlist: &'static str,
    version: u32,
    title: &'a str,
    routing: &'a str,
    /// Ids of hoses that could not be worked out.
    left_out: &'a [String],
    cutting: Vec<KindJson<'a>>,
    shopping: Vec<LineJson<'a>>,
    total: TotalJson,
    spares: Vec<SpareJson<'a>>,
    remake_of_all: RemakeJson,
}

/// Every hose once more, all together.
#[derive(Serialize)]
struct RemakeJson {
    hose: TotalJson,
    hose_proven: bool,
    hoses_not_to_be_had: usize,
    ends: TotalJson,
}

#[derive(Serialize)]
struct KindJson<'a> {
    hose: &'a str,
    name: &'a str,
    dash: u32,
    kerf_mm: f64,
    kerf_source: String,
    trim_mm: f64,
    trim_source: String,
    pieces: Vec<PieceJson<'a>>,
    lengths: Vec<BarJson<'a>>,
    by_metre: Option<MetresJson<'a>>,
    uncut: Vec<UncutJson<'a>>,
    /// Without what has no known price.
    price: f64,
    unpriced_mm: f64,
    /// Whether no cut list is better; if not, `price_at_least` says what none can cost less than.
    proven: bool,
    price_at_least: Option<f64>,
}

#[derive(Serialize)]
struct PieceJson<'a> {
    run: &'a str,
    cut_mm: f64,
}

#[derive(Serialize)]
struct BarJson<'a> {
    length_mm: f64,
    supply: &'static str,
    price: Option<f64>,
    pieces: Vec<PieceJson<'a>>,
    left_mm: f64,
    /// Runs that could be cut again from what is left, one at a time.
    left_good_for: Vec<&'a str>,
}

#[derive(Serialize)]
struct MetresJson<'a> {
    length_mm: f64,
    price: Option<f64>,
    pieces: Vec<PieceJson<'a>>,
}

#[derive(Serialize)]
struct UncutJson<'a> {
    run: &'a str,
    cut_mm: f64,
    why: &'static str,
    longest_mm: Option<f64>,
}

#[derive(Serialize)]
struct LineJson<'a> {
    kind: &'static str,
    id: &'a str,
    name: &'a str,
    dash: Option<u32>,
    angle_deg: Option<f64>,
    length_mm: Option<f64>,
    for_outside_mm: Option<f64>,
    count: Option<u32>,
    metres: Option<f64>,
    supply: &'static str,
    unit_price: Option<f64>,
    price: Option<f64>,
}

#[derive(Serialize)]
struct TotalJson {
    known: f64,
    lines_without_price: usize,
}

#[derive(Serialize)]
struct SpareJson<'a> {
    run: &'a str,
    hose_from: &'static str,
    hose_mm: Option<f64>,
    hose_price: Option<f64>,
    ends_price: Option<f64>,
}

/// The whole file, with a line end.
pub fn cutlist_json(
    bay: &Bay,
    routing: &Routing,
    cut_list: &CutList,
    (list, remakes): (&ShoppingList, &Remakes),
) -> String {
    super::json::pretty(&CutlistJson {
        cutlist: "hosewright-cutlist",
        version: 1,
        title: &bay.title,
        routing: &routing.id,
        left_out: &cut_list.left_out,
        cutting: cut_list.kinds.iter().map(kind).collect(),
        shopping: list.lines.iter().map(line).collect(),
        total: total(list.total),
        spares: remakes.spares.iter().map(|one| spare(cut_list, one)).collect(),
        remake_of_all: RemakeJson {
            hose: total(remakes.of_all.hose),
            hose_proven: remakes.of_all.hose_is_proven,
            hoses_not_to_be_had: remakes.of_all.not_to_be_had,
            ends: total(remakes.of_all.ends),
        },
    })
}

fn total(total: Total) -> TotalJson {
    TotalJson { known: cents(total.known), lines_without_price: total.unknown_lines }
}

/// Money to a ten-thousandth: what is beyond is the dust of binary fractions.
fn cents(amount: f64) -> f64 {
    (amount * 1e4).round() / 1e4
}

fn kind(kind: &KindCuts) -> KindJson<'_> {
    KindJson {
        hose: &kind.hose,
        name: &kind.name,
        dash: kind.dash,
        kerf_mm: kind.kerf_mm,
        kerf_source: if kind.kerf_is_given { "given".to_owned() } else { KERF_SOURCE.to_string() },
        trim_mm: kind.trim_mm,
        trim_source: if kind.trim_is_given { "given".to_owned() } else { TRIM_SOURCE.to_string() },
        pieces: kind.pieces.iter().map(piece).collect(),
        lengths: kind.bars.iter().map(|one| bar(kind, one)).collect(),
        by_metre: kind.metres.as_ref().map(|metres| MetresJson {
            length_mm: metres.length_mm,
            price: metres.price.map(cents),
            pieces: pieces(kind, &metres.pieces),
        }),
        uncut: kind.uncut.iter().filter_map(|one| uncut(kind, one)).collect(),
        price: cents(kind.cost),
        unpriced_mm: kind.unpriced_mm,
        proven: kind.proof == Proof::Best,
        price_at_least: match kind.proof {
            Proof::Best => Some(cents(kind.cost)),
            Proof::Within { at_least } => Some(cents(at_least)),
            Proof::Unsound => None,
        },
    }
}

fn piece(piece: &Piece) -> PieceJson<'_> {
    PieceJson { run: &piece.run, cut_mm: piece.cut_mm }
}

fn pieces<'a>(kind: &'a KindCuts, places: &[usize]) -> Vec<PieceJson<'a>> {
    places.iter().filter_map(|place| kind.pieces.get(*place)).map(piece).collect()
}

fn bar<'a>(kind: &'a KindCuts, bar: &BarCuts) -> BarJson<'a> {
    let good_for = bar.good_for.iter().filter_map(|place| kind.pieces.get(*place));
    BarJson {
        length_mm: bar.length_mm,
        supply: supply(bar.supply == Supply::Shelf),
        price: bar.supply.price(),
        pieces: pieces(kind, &bar.pieces),
        left_mm: bar.left_mm,
        left_good_for: good_for.map(|piece| piece.run.as_str()).collect(),
    }
}

fn uncut<'a>(kind: &'a KindCuts, uncut: &crate::engine::cutting::Uncut) -> Option<UncutJson<'a>> {
    let piece = kind.pieces.get(uncut.piece)?;
    let (why, longest_mm) = match uncut.why {
        WhyUncut::TooLong { longest_mm } => ("too-long", Some(longest_mm)),
        WhyUncut::NotEnough => ("not-enough", None),
    };
    Some(UncutJson { run: &piece.run, cut_mm: piece.cut_mm, why, longest_mm })
}

fn supply(is_on_shelf: bool) -> &'static str {
    if is_on_shelf { "shelf" } else { "buy" }
}

fn line(line: &Line) -> LineJson<'_> {
    let (count, metres) = match line.amount {
        Amount::Pieces(n) => (Some(n), None),
        Amount::Length(mm) => (None, Some(mm / 1000.0)),
    };
    LineJson {
        kind: line.group.word(),
        id: &line.id,
        name: &line.name,
        dash: line.dash,
        angle_deg: line.angle_deg,
        length_mm: line.length_mm,
        for_outside_mm: line.outside_mm,
        count,
        metres,
        supply: supply(line.is_on_shelf),
        unit_price: line.unit_price,
        price: line.price().map(cents),
    }
}

fn spare<'a>(cut_list: &CutList, spare: &'a Spare) -> SpareJson<'a> {
    let of_run = |kind: &&KindCuts| kind.pieces.iter().any(|piece| piece.run == spare.run);
    let kind = cut_list.kinds.iter().find(of_run);
    let (hose_from, hose_mm) = match spare.hose {
        SpareHose::Leftover { bar } => {
            ("leftover", kind.and_then(|kind| kind.bars.get(bar)).map(|bar| bar.left_mm))
        }
        SpareHose::Length { stock, .. } => {
            ("length", kind.and_then(|kind| kind.stock.get(stock)).map(|one| one.length_mm))
        }
        SpareHose::Metres { length_mm, .. } => ("metre", Some(length_mm)),
        SpareHose::Nowhere => ("nowhere", None),
    };
    SpareJson {
        run: &spare.run,
        hose_from,
        hose_mm,
        hose_price: spare.hose.price().map(cents),
        ends_price: spare.ends_price.map(cents),
    }
}
