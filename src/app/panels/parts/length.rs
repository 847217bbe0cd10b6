//! Hose of one length, on the shelf or to be bought.

use super::money;
use super::size::{self, CHANGE};
use crate::app::widgets::{Field, Form, Range};
use crate::app::words;
use crate::model::{ShelfLength, Stock, catalogue, name_or};
use crate::units::Measure;

const HOSE: Field<'_> = Field::new("Hose", "Of your library, or built in", CHANGE);
const SIZE: Field<'_> = Field::new("Size", "The sizes this hose comes in", CHANGE);
const COUNT: Field<'_> =
    Field::new("Count", "How many you have; empty: it can be bought, as many as wanted", CHANGE);
const PRICE: Field<'_> = Field::new("Price", "Of one, in your own money", CHANGE);

pub(super) fn fields(form: &mut Form<'_>, length: &mut ShelfLength, library: &Stock) {
    let built_in = catalogue::hoses().iter();
    let built_in = built_in.filter(|hose| library.hoses.iter().all(|own| own.id != hose.id));
    let hoses: Vec<_> = library.hoses.iter().chain(built_in).collect();
    let names: Vec<(String, String)> = hoses
        .iter()
        .map(|hose| (hose.id.clone(), name_or(&hose.name, &hose.id).to_owned()))
        .collect();
    form.choice(&HOSE, &names, vec![&mut length.hose]);
    if let Some(hose) = hoses.iter().find(|hose| hose.id == length.hose) {
        let sizes: Vec<(u32, String)> =
            hose.sizes.iter().map(|size| (size.dash, words::dash(size.dash))).collect();
        form.choice(&SIZE, &sizes, vec![&mut length.dash]);
    }
    let tip = "How long it is";
    size::needed(form, ("Length", tip, "Length"), Range::NotNegative, &mut length.length_mm);
    let mut count = length.count.map(f64::from);
    form.maybe(&COUNT, Measure::Count, Range::NotNegative, "to buy", vec![&mut count]);
    length.count = count.map(|count| count as u32);
    money::price(form, &PRICE, &mut length.price);
}
