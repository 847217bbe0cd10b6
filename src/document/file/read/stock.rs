//! Hoses, ends and lengths that the bay adds to the catalogue.

use crate::model::{
    Attachment, ClampSize, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, Mark,
    ShelfLength, Source, Stock,
};

use super::context::Family;
use super::cursor::{At, Fields};
use super::kind::{Flag, Span, Text, Whole, Words};
use super::quantity::Quantity;
use super::reference::Wanted;
use super::unique::Unique;

/// Where every figure of a bay's own stock comes from.
pub fn stock_source() -> Source {
    Source::fixed(Mark::BayFile, "")
}

/// Whether a bend radius is to the centre line.
const BEND_MEASURED_TO: Words<bool> = Words(&[(false, "inside"), (true, "centre")]);

pub(super) fn read_stock(at: &At<'_>) -> Stock {
    let f = at.fields("the stock: an object");
    if !f.is_object() {
        at.cx.doubt_ids(Family::Hose);
        at.cx.doubt_ids(Family::End);
    }
    Stock {
        hoses: f.listed("hoses", ("a hose", "hoses"), Some(Family::Hose), read_hose),
        ends: f.listed("ends", ("an end fitting", "end fittings"), Some(Family::End), read_end),
        lengths: f.objects("lengths", "a list of lengths", "a length: an object", read_length),
        clamps: f.objects("clamps", "a list of clamps", "a clamp: an object", read_clamp),
        extra: f.extra(),
    }
}

/// The sizes of a hose or end; where one is faulty, references to any of them are in doubt.
fn sizes<T>(
    f: &Fields<'_>,
    (family, id): (Family, &str),
    read: impl Fn(&Fields<'_>, &Unique) -> T,
) -> Vec<T> {
    let faults_before = f.at.cx.fault_count();
    let sizes = f.listed("sizes", ("a size", "sizes"), None, read);
    if f.at.cx.fault_count() > faults_before {
        f.at.cx.doubt_sizes(family, id);
    }
    sizes
}

fn read_hose(f: &Fields<'_>, seen: &Unique) -> HoseKind {
    let id = f.id(seen);
    HoseKind {
        name: f.maybe("name", &Text).unwrap_or_default(),
        maker: f.maybe("maker", &Text),
        construction: Construction::from_word(&f.maybe("construction", &Text).unwrap_or_default()),
        liner: f.maybe("liner", &Text),
        conductive_liner: f.maybe("conductive_liner", &Flag),
        temperature_c: f.maybe("temperature_c", &Span(Quantity::CELSIUS)),
        length_change_pct: f.maybe("length_change_pct", &Span(Quantity::PERCENT)),
        bend_to_centre: f.maybe("bend_measured_to", &BEND_MEASURED_TO),
        sizes: sizes(f, (Family::Hose, &id), read_hose_size),
        sources: HoseSources::all(stock_source()),
        extra: f.extra(),
        id,
    }
}

/// The dash number of a size; 0 where it is faulty.
fn dash(f: &Fields<'_>) -> u32 {
    f.must("dash", &Whole::DASH).unwrap_or_default()
}

fn read_hose_size(f: &Fields<'_>, seen: &Unique) -> HoseSize {
    let dash = dash(f);
    if dash != 0 {
        let once = "each size of a hose once";
        f.get("dash", |at| seen.note(at, &dash.to_string(), &dash.to_string(), once));
    }
    HoseSize {
        dash,
        bore_mm: f.maybe("bore", &Quantity::SIZE),
        outside_mm: f.must("outside", &Quantity::SIZE),
        bend_radius_mm: f.must("bend_radius", &Quantity::SIZE).unwrap_or_default(),
        max_pressure_bar: f.maybe("max_pressure_bar", &Quantity::BAR),
        burst_bar: f.maybe("burst_bar", &Quantity::BAR),
        proof_bar: f.maybe("proof_bar", &Quantity::BAR),
        expansion_ml_per_m: f.maybe("expansion_ml_per_m", &Quantity::ML_PER_M),
        expansion_at_bar: f.maybe("expansion_at_bar", &Quantity::PRESSURE),
        temperature_c: f.maybe("temperature_c", &Span(Quantity::CELSIUS)),
        mass_kg_per_m: f.maybe("mass_per_m", &Quantity::KG_PER_M),
        price_per_m: f.maybe("price_per_m", &Quantity::PRICE_PER_M),
        extra: f.extra(),
    }
}

fn read_end(f: &Fields<'_>, seen: &Unique) -> EndKind {
    let id = f.id(seen);
    EndKind {
        name: f.maybe("name", &Text).unwrap_or_default(),
        maker: f.maybe("maker", &Text),
        for_construction: f
            .maybe("for_construction", &Text)
            .map(|word| Construction::from_word(&word)),
        attachment: f.maybe("attachment", &Words(&Attachment::ALL)),
        sizes: sizes(f, (Family::End, &id), read_end_size),
        source_straight: stock_source(),
        source_elbow: stock_source(),
        source_socket: stock_source(),
        extra: f.extra(),
        id,
    }
}

fn read_end_size(f: &Fields<'_>, seen: &Unique) -> EndSize {
    let dash = dash(f);
    let angle = f.must("angle_deg", &Quantity::HALF_TURN);
    if let (Some(angle), true) = (angle, dash != 0) {
        // Angles as near as the lookup of an end takes for the same.
        let key = format!("{dash} {angle:.6}");
        let found = format!("\u{2212}{dash} at {angle}\u{b0}");
        let once = "each size and angle of an end fitting once";
        f.get("dash", |at| seen.note(at, &key, &found, once));
    }
    EndSize {
        dash,
        angle_deg: angle.unwrap_or_default(),
        along_mm: f.must("along", &along(angle)).unwrap_or_default(),
        across_mm: f.must("across", &Quantity::LENGTH).unwrap_or_default(),
        socket_mm: f.must("socket", &Quantity::LENGTH).unwrap_or_default(),
        nut_hex_mm: f.maybe("nut_hex", &Quantity::SIZE),
        insertion_mm: f.maybe("insertion", &Quantity::SIZE),
        crimp_diameter_mm: f.maybe("crimp_diameter", &Quantity::SIZE),
        measured: f.maybe("measured", &Flag),
        measured_on: f.maybe("measured_on", &Text).unwrap_or_default(),
        max_pressure_bar: f.maybe("max_pressure_bar", &Quantity::BAR),
        price: f.maybe("price", &Quantity::PRICE),
        mass_kg: f.maybe("mass", &Quantity::KG),
        extra: f.extra(),
    }
}

/// `along` of an end bent by this angle: the hose of a fitting bent past a right angle may come
/// out behind the seat.
pub(super) fn along(angle_deg: Option<f64>) -> Quantity {
    if angle_deg.is_none_or(|angle| angle > 90.0) { Quantity::MM } else { Quantity::LENGTH }
}

fn read_length(f: &Fields<'_>) -> ShelfLength {
    let hose = f.must_reference("hose", "the id of a hose", Wanted::Hose);
    let dash = dash(f);
    if dash != 0 && !hose.is_empty() {
        f.get("dash", |at| at.want(Wanted::HoseSize { hose: hose.clone(), dash }));
    }
    ShelfLength {
        hose,
        dash,
        length_mm: f.must("length", &Quantity::REEL).unwrap_or_default(),
        count: f.maybe("count", &Whole::COUNT),
        price: f.maybe("price", &Quantity::PRICE),
        extra: f.extra(),
    }
}

fn read_clamp(f: &Fields<'_>) -> ClampSize {
    ClampSize {
        name: f.maybe("name", &Text).unwrap_or_default(),
        outside_mm: f.must("outside", &Span(Quantity::SIZE)).unwrap_or_default(),
        price: f.maybe("price", &Quantity::PRICE),
        extra: f.extra(),
    }
}
