//! An end fitting and its sizes and angles, measured under the sketch of one.

use super::super::properties::{Dimension, EndShape, how_to_measure, sketch};
use super::hose::{construction, optional_text};
use super::list::size_name;
use super::money;
use super::size::{self, CHANGE, Names, field};
use crate::app::widgets::{Field, Form, Range};
use crate::clock;
use crate::model::{Attachment, EndKind, EndSize};
use crate::units::Measure;

const NAME: Field<'_> = Field::new("Name", "What the end is called on the sheet", CHANGE);
const MAKER: Field<'_> = Field::new("Manufacturer", "Who makes it; may be empty", CHANGE);
const ID: Field<'_> = Field::new("Id", "What bay files call it", CHANGE);
const ATTACHMENT: Field<'_> = Field::new("Attachment", "How it holds the hose", CHANGE);
const ADD: Field<'_> =
    Field::new("", "Another size or angle of this end", CHANGE).named("Add a size or angle");

pub(super) fn fields(form: &mut Form<'_>, end: &mut EndKind, is_new: bool) {
    form.text(&NAME, vec![&mut end.name]);
    optional_text(form, &MAKER, &mut end.maker);
    construction(form, ("For hose", true), &mut end.for_construction);
    let mut ways: Vec<(Option<Attachment>, String)> = vec![(None, "as its hose is".to_owned())];
    ways.extend(Attachment::ALL.map(|(way, word)| (Some(way), word.to_owned())));
    form.choice(&ATTACHMENT, &ways, vec![&mut end.attachment]);
    if !is_new {
        form.text(&ID, vec![&mut end.id]);
    }
    let is_pressed = end.attachment.is_some_and(Attachment::takes_a_press);
    let mut removed = None;
    let is_only = end.sizes.len() == 1;
    for (place, one) in end.sizes.iter_mut().enumerate() {
        let names = Names(place + 1);
        let summary = size_name(one.dash, one.angle_deg);
        form.section(&format!("Size {}", names.0), &summary, is_only, |form| {
            of_size(form, one, &names, is_pressed);
            let name = names.of("Remove");
            if !is_only && form.button("Remove size", &field("", "Take this size out", &name)) {
                removed = Some(place);
            }
        });
    }
    if let Some(place) = removed {
        end.sizes.remove(place);
    }
    if form.button("Add a size or angle", &ADD) {
        let (dash, angle_deg) = next_size(&end.sizes);
        end.sizes.push(EndSize { dash, angle_deg, ..EndSize::default() });
    }
}

/// The next usual angle of the last size, else the next size, straight.
fn next_size(sizes: &[EndSize]) -> (u32, f64) {
    const USUAL: [f64; 4] = [0.0, 45.0, 90.0, 180.0];
    let dash = sizes.last().map_or(6, |size| size.dash);
    let is_free = |dash: u32, deg: f64| {
        sizes.iter().all(|size| size.dash != dash || (size.angle_deg - deg).abs() > 1e-6)
    };
    let free = USUAL.into_iter().find(|deg| is_free(dash, *deg));
    let after = sizes.iter().map(|size| size.dash).max().map_or(6, |dash| dash + 2);
    free.map_or((after, 0.0), |deg| (dash, deg))
}

fn of_size(form: &mut Form<'_>, one: &mut EndSize, names: &Names, is_pressed: bool) {
    size::dash(form, names, &mut one.dash);
    let angle = names.of("Angle");
    let tip = "How far the fitting is bent, 0 (straight) to 180°";
    let field_of_angle = field("Angle", tip, &angle);
    form.figure(&field_of_angle, Measure::Angle, Range::HalfTurn, vec![&mut one.angle_deg]);
    measured(form, one, names);
    let length = form.length();
    let [hex, insertion, crimp, rating, price, mass] =
        ["Nut", "Insertion", "Crimp diameter", "Rating", "Price", "Mass"]
            .map(|what| names.of(what));
    let tip = "Swivel nut across flats; empty: by the table of its size";
    let nut = field("Nut hex", tip, &hex);
    form.maybe(&nut, length, Range::Positive, "by its size", vec![&mut one.nut_hex_mm]);
    if is_pressed {
        let tip = "How far the hose goes into the ferrule, by the manufacturer's chart";
        let into = field("Insertion", tip, &insertion);
        form.maybe(&into, length, Range::Positive, "not known", vec![&mut one.insertion_mm]);
        let tip = "Diameter of the ferrule after pressing, by the manufacturer's chart";
        let after = field("Crimp diameter", tip, &crimp);
        form.maybe(&after, length, Range::Positive, "not known", vec![&mut one.crimp_diameter_mm]);
    }
    let pressure = Measure::Pressure(form.units().into());
    let tip = "Greatest working pressure, by the manufacturer";
    let rated = field("Rating", tip, &rating);
    form.maybe(&rated, pressure, Range::Positive, "not known", vec![&mut one.max_pressure_bar]);
    money::price(form, &field("Price", "Of one, in your own money", &price), &mut one.price);
    money::mass(form, &field("Mass", "Of one", &mass), &mut one.mass_kg);
}

/// Along, across and socket under their sketch, and whether and when they were measured.
fn measured(form: &mut Form<'_>, one: &mut EndSize, names: &Names) {
    let [along, across, socket, how, day] =
        ["Along", "Across", "Socket", "Figures", "Measured on"].map(|what| names.of(what));
    let is_straight = one.angle_deg == 0.0;
    let lit =
        [(Dimension::Along, &along), (Dimension::Across, &across), (Dimension::Socket, &socket)]
            .into_iter()
            .find(|(_, name)| form.has_focus(&field("", "", name)))
            .map(|(dimension, _)| dimension);
    let figures = [one.along_mm, one.across_mm, one.socket_mm];
    let shape = EndShape::measured(one.angle_deg, figures, one.dash);
    form.whole(|ui| sketch(ui, shape, lit));
    form.whole(|ui| how_to_measure(ui, names.0, is_straight));
    let backwards = if one.angle_deg > 90.0 { Range::Any } else { Range::NotNegative };
    let tip = "From the seat to the cut end inside the socket, parallel to the port's axis";
    size::needed(form, ("Along", tip, &along), backwards, &mut one.along_mm);
    if is_straight {
        one.across_mm = 0.0;
    } else {
        let tip = "From the port's axis to the middle of the cut end, square to the axis";
        size::needed(form, ("Across", tip, &across), Range::NotNegative, &mut one.across_mm);
    }
    let tip = "From the cut end to the socket mouth, along the hose: how much hose is gripped";
    size::needed(form, ("Socket", tip, &socket), Range::NotNegative, &mut one.socket_mm);
    let was_measured = one.measured == Some(true);
    let mut is_measured = was_measured;
    let ways = [(false, "from a table".to_owned()), (true, "measured on my ends".to_owned())];
    let tip = "Whether you measured along, across and socket on the ends that you have";
    form.choice(&field("Figures", tip, &how), &ways, vec![&mut is_measured]);
    // A figure that was measured again carries the day of it.
    let is_again = is_measured && [one.along_mm, one.across_mm, one.socket_mm] != figures;
    if is_measured != was_measured {
        one.measured = is_measured.then_some(true);
        one.measured_on.clear();
    }
    if is_again || (is_measured && !was_measured) {
        one.measured_on = clock::today().unwrap_or_default();
    }
    if is_measured {
        let tip = "The day; it stands on card and sheet";
        form.text(&field("Measured on", tip, &day), vec![&mut one.measured_on]);
    }
}
