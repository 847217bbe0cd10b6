//! `cut_list` for people.

use std::fmt::Write;

use crate::engine::cutting::{
    CutList, KERF_SOURCE, KindCuts, Line, Piece, Remakes, ShoppingList, Spare, SpareHose,
    TRIM_SOURCE,
};
use crate::model::{Bay, Routing, name_or};
use crate::report::cutlist as words;
use crate::report::verdict::Verdict;
use crate::units::{Length, LengthUnit};

use super::output;
use super::table::{Align, shortened, table, wrap};

/// No line of ours is wider, but for words that cannot be broken.
const COLUMNS: usize = 108;
const NAME_COLUMNS: usize = 36;
const NOT_KNOWN: &str = "not known";

/// Cut list, shopping list, what a remake would add.
pub(super) fn cut_list(
    bay: &Bay,
    routing: &Routing,
    cut_list: &CutList,
    (list, remakes): (&ShoppingList, &Remakes),
    verdict: Verdict,
) -> String {
    let unit = bay.show_units;
    let title = name_or(&bay.title, "Untitled bay");
    let name = name_or(&routing.name, &routing.id);
    let mut out = String::new();
    // Writing to a String cannot fail, here and below.
    let _ = writeln!(out, "{}", shortened(title, COLUMNS));
    let _ = writeln!(out, "{}", shortened(&format!("Routing {} ({name})", routing.id), COLUMNS));
    if verdict.faults > 0 {
        say(&mut out, &format!("{}; see `hosewright check`.", verdict.stop()));
    }
    if routing.runs.is_empty() {
        out.push_str("\nNo hoses in this routing.\n");
        return output::plain(&out);
    }
    for kind in &cut_list.kinds {
        cutting(&mut out, kind, unit);
    }
    allowances(&mut out, cut_list);
    for run in &cut_list.left_out {
        say(&mut out, &format!("Left out: {run}, which cannot be calculated."));
    }
    shopping(&mut out, list, unit);
    spares(&mut out, cut_list, remakes, unit);
    say(&mut out, words::NOT_COUNTED);
    output::plain(&out)
}

/// Where the allowances come from that were not given.
fn allowances(out: &mut String, cut_list: &CutList) {
    let Some(kind) = cut_list.kinds.first() else { return };
    let source = |given: bool, source: String| if given { "given".to_owned() } else { source };
    let kerf = source(kind.kerf_is_given, KERF_SOURCE.to_string());
    let trim =
        source(kind.trim_is_given, format!("as far as a cut may be out of square, {TRIM_SOURCE}"));
    say(out, &format!("Kerf: {kerf}. Trim: {trim}."));
}

fn say(out: &mut String, words: &str) {
    let _ = write!(out, "\n{}\n", wrap(words, COLUMNS, 0));
}

fn money(amount: Option<f64>) -> String {
    amount.map_or_else(|| NOT_KNOWN.to_owned(), |amount| format!("{amount:.2}"))
}

fn size(name: &str, dash: u32) -> String {
    format!("{} \u{2212}{dash}", shortened(name, NAME_COLUMNS))
}

fn cutting(out: &mut String, kind: &KindCuts, unit: LengthUnit) {
    let pieces = words::pieces(kind.pieces.len());
    let allowed = |mm: f64| Length::from_mm(mm).show(unit);
    let (kerf, trim) = (allowed(kind.kerf_mm), allowed(kind.trim_mm));
    let head = size(&kind.name, kind.dash);
    say(out, &format!("Cut {head}: {pieces}; kerf {kerf} per cut, trim {trim} per piece"));
    for bar in &kind.bars {
        let from = words::supply(bar.supply);
        let cut = names(kind, &bar.pieces, Some(unit));
        let left = words::length(bar.left_mm, unit);
        let good_for = words::good_for(&names(kind, &bar.good_for, None));
        let from = format!("{} {from}", words::length(bar.length_mm, unit));
        item(out, &format!("{from}: {cut}. Left: {left}, {good_for}."));
    }
    if let Some(metres) = &kind.metres {
        let price = money(metres.price);
        let price = if metres.price.is_some() { price } else { format!("price {price}") };
        let cut = names(kind, &metres.pieces, Some(unit));
        let whole = words::sold(metres.length_mm, unit);
        item(out, &format!("{whole} {}, {price}: {cut}.", words::by_length(unit)));
    }
    uncut(out, kind, unit);
    if !kind.bars.is_empty() || kind.metres.is_some() {
        let _ = writeln!(out, "{}", wrap(&words::proof(kind), COLUMNS, 0));
    }
}

fn item(out: &mut String, words: &str) {
    let _ = writeln!(out, "  {}", wrap(words, COLUMNS - 2, 4));
}

fn uncut(out: &mut String, kind: &KindCuts, unit: LengthUnit) {
    for one in &kind.uncut {
        let Some(piece) = kind.pieces.get(one.piece) else { continue };
        let words = format!("NOT CUT: {}.", words::uncut(piece, one.why, unit));
        let _ = writeln!(out, "{}", wrap(&words, COLUMNS, 0));
    }
}

/// Names of pieces, each with its length where a unit is given; alike ones stand apart, since each is
/// a hose of its own.
fn names(kind: &KindCuts, places: &[usize], unit: Option<LengthUnit>) -> String {
    let pieces = places.iter().filter_map(|place| kind.pieces.get(*place));
    let word = |piece: &Piece| match unit {
        Some(unit) => {
            format!("{} {}", Length::from_mm(piece.cut_mm).number(unit), shortened(&piece.name, 22))
        }
        None => shortened(&piece.name, 22),
    };
    pieces.map(word).collect::<Vec<_>>().join(" + ")
}

fn shopping(out: &mut String, list: &ShoppingList, unit: LengthUnit) {
    out.push_str("\nShopping list\n\n");
    let rows: Vec<Vec<String>> = list.lines.iter().map(|line| bought(line, unit)).collect();
    let heading = [
        ("How much", Align::Right),
        ("What", Align::Left),
        ("", Align::Left),
        ("Each", Align::Right),
        ("Price", Align::Right),
    ];
    out.push_str(&table(&heading, &rows));
    let _ = writeln!(out, "{}", wrap(&words::total(list.total), COLUMNS, 0));
}

fn bought(line: &Line, unit: LengthUnit) -> Vec<String> {
    let what = match line.dash {
        Some(dash) => size(&line.name, dash),
        None => shortened(&line.name, NAME_COLUMNS),
    };
    let (each, price) = if line.is_on_shelf {
        ("on the shelf".to_owned(), String::new())
    } else {
        (words::each(line, unit).unwrap_or_default(), money(line.price()))
    };
    vec![words::how_much(line, unit), what, words::detail(line, unit), each, price]
}

fn spares(out: &mut String, cut_list: &CutList, remakes: &Remakes, unit: LengthUnit) {
    out.push_str("\nOne spare: what it adds to make one hose again, each by itself\n\n");
    let row = |spare: &Spare| {
        vec![
            shortened(&spare.name, NAME_COLUMNS),
            words::spare_hose(cut_list, spare, unit),
            if spare.hose == SpareHose::Nowhere {
                "not available".to_owned()
            } else {
                money(spare.hose.price())
            },
            money(spare.ends_price),
        ]
    };
    let rows: Vec<Vec<String>> = remakes.spares.iter().map(row).collect();
    let heading = [
        ("Hose", Align::Left),
        ("Cut from", Align::Left),
        ("Hose costs", Align::Right),
        ("Both ends", Align::Right),
    ];
    out.push_str(&table(&heading, &rows));
    let _ = writeln!(out, "{}", wrap(&words::remake_of_all(&remakes.of_all), COLUMNS, 0));
}
