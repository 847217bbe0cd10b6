//! Sleeves over a hose.

use crate::model::{Nature, Sleeve};

use super::cursor::{At, Fields};
use super::kind::{Kind, Text, Words};
use super::quantity::Quantity;

const HARM: Words<Nature> = Words(&Nature::HARMFUL);

pub(super) fn read_sleeves(run: &Fields<'_>) -> Vec<Sleeve> {
    run.objects("sleeves", "a list of sleeves", "a sleeve: an object", read_sleeve)
}

fn read_sleeve(f: &Fields<'_>) -> Sleeve {
    let from_mm = f.maybe("from_mm", &Quantity::LENGTH);
    let to_mm = f.maybe("to_mm", &Quantity::LENGTH);
    if let (Some(from), Some(to)) = (from_mm, to_mm)
        && to < from
    {
        f.get("to_mm", |at| at.wrong(&format!("no less than \"from_mm\", {from}")));
    }
    Sleeve {
        name: f.maybe("name", &Text).unwrap_or_default(),
        from_mm,
        to_mm,
        temperature_c: f.maybe("temperature_c", &Quantity::CELSIUS),
        rated_for: f.get("rated_for", read_rated_for).unwrap_or_default(),
        extra: f.extra(),
    }
}

fn read_rated_for(at: &At<'_>) -> Vec<Nature> {
    let items = at.items(&format!("a list of {}", HARM.expected())).unwrap_or_default();
    items.iter().filter_map(|item| HARM.accept(item)).collect()
}
