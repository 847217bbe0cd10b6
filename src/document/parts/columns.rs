//! Every figure of a part: the column of a table for spreadsheets, the key of the file, the word of the
//! window.

use crate::model::StockList;
use crate::units::{Derived, LengthUnit, Measure, PressureUnit, TemperatureUnit};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    Text,
    Flag,
    Dash,
    Number,
    Percent,
    Length,
    Pressure,
    Temperature,
    /// A quantity whose unit is in the column's name.
    Fixed(Derived),
}

impl Sort {
    /// The measures that a column may be of, with what its name ends in; the first is that of the file.
    pub(super) const fn measures(self) -> &'static [(&'static str, Measure)] {
        match self {
            Self::Length => &[
                ("_mm", Measure::Length(LengthUnit::Mm)),
                ("_in", Measure::Length(LengthUnit::Inch)),
            ],
            Self::Pressure => &[
                ("_bar", Measure::Pressure(PressureUnit::Bar)),
                ("_psi", Measure::Pressure(PressureUnit::Psi)),
            ],
            Self::Temperature => &[
                ("_c", Measure::Temperature(TemperatureUnit::Celsius)),
                ("_f", Measure::Temperature(TemperatureUnit::Fahrenheit)),
            ],
            Self::Percent => &[("_pct", Measure::Percent)],
            Self::Dash => &[("", Measure::Dash)],
            Self::Number | Self::Fixed(_) | Self::Text | Self::Flag => &[("", Measure::Number)],
        }
    }

    /// How a bay in these units shows it.
    pub(super) fn shown_in(self, units: LengthUnit) -> Measure {
        match self {
            Self::Length => Measure::Length(units),
            Self::Pressure => Measure::Pressure(units.into()),
            Self::Temperature => Measure::Temperature(units.into()),
            Self::Dash => Measure::Dash,
            Self::Percent => Measure::Percent,
            _ => Measure::Number,
        }
    }
}

/// A figure of a part.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column {
    /// Its name in a table, without the unit.
    pub(super) name: &'static str,
    /// Its word in the window.
    pub(super) word: &'static str,
    /// Its key in the file.
    pub(super) key: &'static str,
    /// Its place, where the key holds least and greatest.
    pub(super) place: Option<usize>,
    /// Whether each size has its own.
    pub(super) of_size: bool,
    pub(super) sort: Sort,
}

const fn column(
    name: &'static str,
    word: &'static str,
    key: &'static str,
    of_size: bool,
    sort: Sort,
) -> Column {
    Column { name, word, key, place: None, of_size, sort }
}

const fn part(name: &'static str, word: &'static str, key: &'static str, sort: Sort) -> Column {
    column(name, word, key, false, sort)
}

const fn size(name: &'static str, word: &'static str, key: &'static str, sort: Sort) -> Column {
    column(name, word, key, true, sort)
}

const fn at(place: usize, column: Column) -> Column {
    Column { place: Some(place), ..column }
}

use Sort::{Dash, Fixed, Flag, Length, Number, Percent, Pressure, Temperature, Text};

const HOSES: &[Column] = &[
    part("id", "Id", "id", Text),
    part("name", "Name", "name", Text),
    part("manufacturer", "Manufacturer", "maker", Text),
    part("construction", "Construction", "construction", Text),
    part("liner", "Liner", "liner", Text),
    part("conductive_liner", "Conductive liner", "conductive_liner", Flag),
    at(0, part("least_temperature", "Least temperature", "temperature_c", Temperature)),
    at(1, part("greatest_temperature", "Greatest temperature", "temperature_c", Temperature)),
    at(0, part("shortest", "Shortest under pressure", "length_change_pct", Percent)),
    at(1, part("longest", "Longest under pressure", "length_change_pct", Percent)),
    part("bend_radius_to", "Bend radius to", "bend_measured_to", Text),
    size("dash", "Size", "dash", Dash),
    size("bore", "Bore", "bore", Length),
    size("od", "OD", "outside", Length),
    size("bend_radius", "Bend radius", "bend_radius", Length),
    size("rating", "Rating", "max_pressure_bar", Pressure),
    size("burst", "Burst", "burst_bar", Pressure),
    size("proof", "Proof", "proof_bar", Pressure),
    size("expansion_ml_per_m", "Volumetric expansion", "expansion_ml_per_m", Number),
    size("expansion_at", "Volumetric expansion at", "expansion_at_bar", Pressure),
    at(0, size("least_temperature_of_size", "Least temperature", "temperature_c", Temperature)),
    at(
        1,
        size("greatest_temperature_of_size", "Greatest temperature", "temperature_c", Temperature),
    ),
    size("mass_kg_per_m", "Mass", "mass_per_m", Fixed(Derived::Mass)),
    size("price_per_m", "Price", "price_per_m", Fixed(Derived::HoseSold)),
];

const ENDS: &[Column] = &[
    part("id", "Id", "id", Text),
    part("name", "Name", "name", Text),
    part("manufacturer", "Manufacturer", "maker", Text),
    part("construction", "For hose", "for_construction", Text),
    part("attachment", "Attachment", "attachment", Text),
    size("dash", "Size", "dash", Dash),
    size("angle_deg", "Angle", "angle_deg", Number),
    size("along", "Along", "along", Length),
    size("across", "Across", "across", Length),
    size("socket", "Socket", "socket", Length),
    size("nut_hex", "Nut across flats", "nut_hex", Length),
    size("insertion", "Insertion", "insertion", Length),
    size("crimp_diameter", "Crimp diameter", "crimp_diameter", Length),
    size("measured", "Measured", "measured", Flag),
    size("measured_on", "Measured on", "measured_on", Text),
    size("rating", "Rating", "max_pressure_bar", Pressure),
    size("price", "Price", "price", Number),
    size("mass_kg", "Mass", "mass", Fixed(Derived::Mass)),
];

const CLAMPS: &[Column] = &[
    part("name", "Name", "name", Text),
    at(0, part("least_od", "Least OD", "outside", Length)),
    at(1, part("greatest_od", "Greatest OD", "outside", Length)),
    part("price", "Price", "price", Number),
];

const LENGTHS: &[Column] = &[
    part("hose", "Hose", "hose", Text),
    part("dash", "Size", "dash", Dash),
    part("length", "Length", "length", Length),
    part("count", "Count", "count", Number),
    part("price", "Price", "price", Number),
];

/// The figures of a list's parts, in the order of the file.
pub(super) fn of(list: StockList) -> &'static [Column] {
    match list {
        StockList::Hoses => HOSES,
        StockList::Ends => ENDS,
        StockList::Clamps => CLAMPS,
        StockList::Lengths => LENGTHS,
    }
}

/// The key of a list in the file, and its word in the first column of a table.
pub(super) const LISTS: [(StockList, &str, &str); 4] = [
    (StockList::Hoses, "hoses", "hose"),
    (StockList::Ends, "ends", "end"),
    (StockList::Clamps, "clamps", "clamp"),
    (StockList::Lengths, "lengths", "length"),
];
