//! A hose and its sizes.

use super::money;
use super::size::{self, CHANGE, Names, field};
use crate::app::widgets::{Field, Form, Range};
use crate::app::words;
use crate::model::{Construction, HoseKind, HoseSize};
use crate::units::{Derived, Length, Measure};

const NAME: Field<'_> = Field::new("Name", "What the hose is called on the sheet", CHANGE);
const MAKER: Field<'_> = Field::new("Manufacturer", "Who makes it; may be empty", CHANGE);
const ID: Field<'_> = Field::new("Id", "What bay files call it", CHANGE);
const LINER: Field<'_> = Field::new(
    "Liner",
    "What the fluid touches: PTFE, NBR, EPDM, FKM, CPE; empty: by the construction",
    CHANGE,
);
const CONDUCTIVE: Field<'_> = Field::new(
    "Static charge",
    "Whether the liner conducts static charge: ask its manufacturer",
    CHANGE,
);
const BEND_TO: Field<'_> = Field::new(
    "Radius to",
    "What its table gives the bend radius to: of rubber and PTFE hose mostly the inside of the bend",
    CHANGE,
);
const ADD: Field<'_> = Field::new("", "Another size of this hose", CHANGE).named("Add a size");

pub(super) fn fields(form: &mut Form<'_>, hose: &mut HoseKind, is_new: bool) {
    form.text(&NAME, vec![&mut hose.name]);
    optional_text(form, &MAKER, &mut hose.maker);
    let mut built = Some(hose.construction.clone());
    construction(form, ("Construction", false), &mut built);
    hose.construction = built.unwrap_or(Construction::PtfeBraid);
    optional_text(form, &LINER, &mut hose.liner);
    let conducts =
        [(None, "not known"), (Some(true), "conducts"), (Some(false), "does not conduct")];
    let conducts = conducts.map(|(value, word)| (value, word.to_owned()));
    form.choice(&CONDUCTIVE, &conducts, vec![&mut hose.conductive_liner]);
    let mut to_centre = hose.bend_to_centre.unwrap_or(false);
    let ways = [(false, "inside of the bend".to_owned()), (true, "centre line".to_owned())];
    form.choice(&BEND_TO, &ways, vec![&mut to_centre]);
    if to_centre != hose.bend_to_centre.unwrap_or(false) {
        hose.bend_to_centre = Some(to_centre);
    }
    size::temperatures(form, &mut hose.temperature_c);
    size::length_change(form, &mut hose.length_change_pct);
    if !is_new {
        form.text(&ID, vec![&mut hose.id]);
    }
    let mut removed = None;
    let is_only = hose.sizes.len() == 1;
    for (place, one) in hose.sizes.iter_mut().enumerate() {
        let names = Names(place + 1);
        let summary = summary(one, form);
        form.section(&format!("Size {}", names.0), &summary, is_only, |form| {
            of_size(form, one, &names, to_centre);
            let name = names.of("Remove");
            if !is_only && form.button("Remove size", &field("", "Take this size out", &name)) {
                removed = Some(place);
            }
        });
    }
    if let Some(place) = removed {
        hose.sizes.remove(place);
    }
    if form.button("Add a size", &ADD) {
        let next = hose.sizes.iter().map(|size| size.dash).max().map_or(6, |dash| dash + 2);
        hose.sizes.push(HoseSize { dash: next, ..HoseSize::default() });
    }
}

fn summary(size: &HoseSize, form: &Form<'_>) -> String {
    let outside = size.outside_mm.map(|mm| Length::from_mm(mm).show(form.units()));
    let outside = outside.map(|od| format!(", OD {od}")).unwrap_or_default();
    format!("{}{outside}", words::dash(size.dash))
}

fn of_size(form: &mut Form<'_>, one: &mut HoseSize, names: &Names, to_centre: bool) {
    let length = form.length();
    let pressure = Measure::Pressure(form.units().into());
    let [od, bore, radius, rating, burst, proof, price, mass] =
        ["OD", "Bore", "Bend radius", "Rating", "Burst", "Proof", "Price", "Mass"]
            .map(|what| names.of(what));
    size::dash(form, names, &mut one.dash);
    let tip = "Outside diameter: by its table, or over the braid with a strip of paper";
    let outside = field("OD", tip, &od);
    form.maybe(&outside, length, Range::Positive, "needed", vec![&mut one.outside_mm]);
    let tip = "Inside diameter; the dash number does not tell it";
    let bore = field("Bore", tip, &bore);
    form.maybe(&bore, length, Range::Positive, "not known", vec![&mut one.bore_mm]);
    let label = if to_centre { "Radius, centre" } else { "Radius, inside" };
    let tip = "Minimum bend radius, by the manufacturer's table";
    size::needed(form, (label, tip, &radius), Range::NotNegative, &mut one.bend_radius_mm);
    for (label, tip, name, value) in [
        (
            "Rating",
            "Greatest working pressure, by the manufacturer",
            &rating,
            &mut one.max_pressure_bar,
        ),
        ("Burst", "Burst pressure, by the manufacturer", &burst, &mut one.burst_bar),
        ("Proof", "Proof pressure, by the manufacturer", &proof, &mut one.proof_bar),
    ] {
        let field = field(label, tip, name);
        form.maybe(&field, pressure, Range::Positive, "not known", vec![value]);
    }
    let by = Derived::HoseSold.sign(form.units());
    let label = format!("Price per {by}");
    let tip = "In your own money";
    money::by_length(form, &field(&label, tip, &price), None, &mut one.price_per_m);
    let label = format!("{} per {by}", Derived::Mass.sign(form.units()));
    let tip = "Mass of the dry hose by length";
    let of = Some(Derived::Mass);
    money::by_length(form, &field(&label, tip, &mass), of, &mut one.mass_kg_per_m);
}

/// Text that says nothing where it is empty.
pub(super) fn optional_text(form: &mut Form<'_>, field: &Field<'_>, value: &mut Option<String>) {
    let mut text = value.clone().unwrap_or_default();
    let before = text.clone();
    form.text(field, vec![&mut text]);
    if text != before {
        *value = Some(text).filter(|text| !text.is_empty());
    }
}

/// How a hose is built, or the hose that an end is for, which may be left out.
pub(super) fn construction(
    form: &mut Form<'_>,
    (label, may_be_absent): (&str, bool),
    value: &mut Option<Construction>,
) {
    let tip = "How the hose is built: its ends go by it";
    let known = [Construction::PtfeBraid, Construction::RubberBraid, Construction::PushOn];
    let known = known.map(|one| (Some(one.clone()), one.shown().to_owned()));
    let own = match &*value {
        Some(Construction::Other(word)) => word.clone(),
        _ => String::new(),
    };
    let none = may_be_absent.then(|| (None, "not given".to_owned()));
    let another = (Some(Construction::Other(own)), "another".to_owned());
    let choices: Vec<(Option<Construction>, String)> =
        none.into_iter().chain(known).chain([another]).collect();
    form.choice(&Field::new(label, tip, CHANGE), &choices, vec![value]);
    if let Some(Construction::Other(word)) = value {
        let tip = "A word of your own; ends for it have the same word";
        form.text(&Field::new("Its word", tip, CHANGE), vec![word]);
    }
}
