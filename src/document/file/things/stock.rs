//! Hoses, ends, lengths and clamps that the bay adds to the catalogue.

use crate::document::file::read::doubts::Family;
use crate::document::file::read::reference::Wanted;
use crate::model::{
    Attachment, ClampSize, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, Mark,
    ShelfLength, Source, Stock,
};

use super::keys::{Fixed, Id, Key, List, Maybe, Must, MustInFile, Refers, Rest, Unless, text};
use super::kind::{As, Flag, Text, Whole, Words, span};
use super::quantity::Quantity;
use super::{Entries, Fields, Thing, thing};

/// Where every figure of a bay's own stock comes from.
pub fn stock_source() -> Source {
    Source::fixed(Mark::BayFile, "")
}

/// Whether a bend radius is to the centre line.
const BEND_MEASURED_TO: Words<bool> = Words(&[(false, "inside"), (true, "centre")]);
const CONSTRUCTION: As<Text, Construction> =
    As(Text::Line, Construction::from_word, Construction::word);
const NO_CONSTRUCTION: Construction = Construction::Other(String::new());

thing!(Stock {
    hoses: List::new("hoses", "a hose", "hoses").of(Family::Hose),
    ends: List::new("ends", "an end fitting", "end fittings").of(Family::End),
    lengths: List::new("lengths", "a length", "lengths"),
    clamps: List::new("clamps", "a clamp", "clamps"),
    extra: Rest,
} then |f: &Fields<'_>, _| {
    if !f.is_object() {
        f.at.cx.doubt_ids(Family::Hose);
        f.at.cx.doubt_ids(Family::End);
    }
});

thing!(HoseKind {
    id: Id,
    name: text("name"),
    maker: Maybe("maker", Text::Line),
    construction: Unless("construction", CONSTRUCTION, NO_CONSTRUCTION),
    liner: Maybe("liner", Text::Line),
    conductive_liner: Maybe("conductive_liner", Flag),
    temperature_c: Maybe("temperature_c", span(Quantity::CELSIUS)),
    length_change_pct: Maybe("length_change_pct", span(Quantity::PERCENT)),
    bend_to_centre: Maybe("bend_measured_to", BEND_MEASURED_TO),
    sizes: List::new("sizes", "a size", "sizes"),
    sources: Fixed(HoseSources::all(stock_source())),
    extra: Rest,
} then |f: &Fields<'_>, hose: &Self| doubt_sizes(f, &hose.id));

/// Where a size is faulty, references to any of them are in doubt.
fn doubt_sizes(f: &Fields<'_>, id: &str) {
    if let (Some(seen), false) = (f.seen, f.are_sound(["sizes"])) {
        seen.doubt_sizes(f.at.cx, id);
    }
}

thing!(HoseSize {
    dash: Must("dash", Whole::DASH),
    bore_mm: Maybe("bore", Quantity::SIZE),
    outside_mm: MustInFile("outside", Quantity::SIZE),
    bend_radius_mm: Must("bend_radius", Quantity::SIZE),
    max_pressure_bar: Maybe("max_pressure_bar", Quantity::BAR),
    burst_bar: Maybe("burst_bar", Quantity::BAR),
    proof_bar: Maybe("proof_bar", Quantity::BAR),
    expansion_ml_per_m: Maybe("expansion_ml_per_m", Quantity::ML_PER_M),
    expansion_at_bar: Maybe("expansion_at_bar", Quantity::PRESSURE),
    temperature_c: Maybe("temperature_c", span(Quantity::CELSIUS)),
    mass_kg_per_m: Maybe("mass_per_m", Quantity::KG_PER_M),
    price_per_m: Maybe("price_per_m", Quantity::PRICE_PER_M),
    extra: Rest,
} then |f: &Fields<'_>, size: &Self| {
    if f.are_sound(["dash"]) {
        let dash = size.dash.to_string();
        f.once("dash", &dash, &dash, "each size of a hose once");
    }
});

thing!(EndKind {
    id: Id,
    name: text("name"),
    maker: Maybe("maker", Text::Line),
    for_construction: Maybe("for_construction", CONSTRUCTION),
    attachment: Maybe("attachment", Words(&Attachment::ALL)),
    sizes: List::new("sizes", "a size", "sizes"),
    source_straight: Fixed(stock_source()),
    source_elbow: Fixed(stock_source()),
    source_socket: Fixed(stock_source()),
    extra: Rest,
} then |f: &Fields<'_>, end: &Self| doubt_sizes(f, &end.id));

thing!(EndSize {
    dash: Must("dash", Whole::DASH),
    angle_deg: Must("angle_deg", Quantity::HALF_TURN),
    along_mm: Must("along", along(&angle_deg)),
    across_mm: Must("across", Quantity::LENGTH),
    socket_mm: Must("socket", Quantity::LENGTH),
    nut_hex_mm: Maybe("nut_hex", Quantity::SIZE),
    insertion_mm: Maybe("insertion", Quantity::SIZE),
    crimp_diameter_mm: Maybe("crimp_diameter", Quantity::SIZE),
    measured: Maybe("measured", Flag),
    measured_on: text("measured_on"),
    max_pressure_bar: Maybe("max_pressure_bar", Quantity::BAR),
    price: Maybe("price", Quantity::PRICE),
    mass_kg: Maybe("mass", Quantity::KG),
    extra: Rest,
} then |f: &Fields<'_>, EndSize { dash, angle_deg, .. }: &Self| {
    if f.are_sound(["dash", "angle_deg"]) {
        // Angles as near as the lookup of an end takes for the same.
        let (key, found) = (format!("{dash} {angle_deg:.6}"), format!("\u{2212}{dash} at {angle_deg}\u{b0}"));
        f.once("dash", &key, &found, "each size and angle of an end fitting once");
    }
});

/// `along` of an end bent by this angle: the hose of a fitting bent past a right angle may come out
/// behind the seat.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "a table has it by reference")]
pub(super) fn along(angle_deg: &f64) -> Quantity {
    if *angle_deg > 90.0 { Quantity::MM } else { Quantity::LENGTH }
}

/// The hose has to come in this dash number; of a faulty one nothing is wanted.
pub(super) fn want_size(f: &Fields<'_>, hose: &str, dash: u32) {
    if dash != 0 && !hose.is_empty() {
        f.get("dash", |at| at.want(Wanted::HoseSize { hose: hose.to_owned(), dash }));
    }
}

thing!(ShelfLength {
    hose: Refers("hose", "the id of a hose", Wanted::Hose),
    dash: Must("dash", Whole::DASH),
    length_mm: Must("length", Quantity::REEL),
    count: Maybe("count", Whole::COUNT),
    price: Maybe("price", Quantity::PRICE),
    extra: Rest,
} then |f: &Fields<'_>, length: &Self| want_size(f, &length.hose, length.dash));

thing!(ClampSize {
    name: text("name"),
    outside_mm: Must("outside", span(Quantity::SIZE)),
    price: Maybe("price", Quantity::PRICE),
    extra: Rest,
});
