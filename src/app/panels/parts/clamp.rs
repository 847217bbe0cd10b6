//! A clamp.

use super::money;
use super::size::{self, CHANGE};
use crate::app::widgets::{Field, Form, Range};
use crate::model::ClampSize;

const NAME: Field<'_> = Field::new("Name", "What it is called on the shopping list", CHANGE);
const PRICE: Field<'_> = Field::new("Price", "Of one, in your own money", CHANGE);

pub(super) fn fields(form: &mut Form<'_>, clamp: &mut ClampSize) {
    form.text(&NAME, vec![&mut clamp.name]);
    let [least, greatest] = &mut clamp.outside_mm;
    let tip = "The OD of the thinnest hose that it holds";
    size::needed(form, ("Holds from OD", tip, "Least OD"), Range::NotNegative, least);
    let tip = "The OD of the thickest hose that it holds";
    size::needed(form, ("Holds to OD", tip, "Greatest OD"), Range::NotNegative, greatest);
    money::price(form, &PRICE, &mut clamp.price);
}
