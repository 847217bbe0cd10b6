//! Which liner stands which fluid. From memory: the word of the hose's manufacturer goes before it.

use crate::model::{Fluid, Mark, Source};

/// Where the table comes from.
pub const SOURCE: Source = Source::fixed(
    Mark::Memory,
    "liner and fluids table; your hose manufacturer's figures go before it",
);
/// What is taken where PTFE meets a fluid of a vehicle that the table does not list.
pub const SOURCE_PTFE: Source =
    Source::fixed(Mark::Practice, "PTFE resists practically every fluid of a vehicle");

/// How well a liner stands a fluid. Ordered best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rating {
    /// Stands it.
    A,
    /// Between the two, by compound.
    AToB,
    /// Stands it with some effect.
    B,
    /// Short use only.
    C,
    /// Not fit.
    No,
}

impl Rating {
    /// As the table prints it.
    pub fn word(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::AToB => "A/B",
            Self::B => "B",
            Self::C => "C",
            Self::No => "no",
        }
    }
}

/// A column of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// Petrol without alcohol.
    Petrol,
    /// Petrol with ethanol.
    EthanolBlends,
    /// Methanol.
    Methanol,
    /// Diesel.
    Diesel,
    /// Engine oil, ATF, and what is taken as like them.
    Oil,
    /// Brake fluid DOT 3, 4 and 5.1; not DOT 5 and not mineral fluid.
    Dot,
    /// Water with glycol.
    WaterGlycol,
}

impl Column {
    /// Its heading.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Petrol => "petrol",
            Self::EthanolBlends => "ethanol blends",
            Self::Methanol => "methanol",
            Self::Diesel => "diesel",
            Self::Oil => "engine oil, ATF",
            Self::Dot => "DOT 3/4/5.1",
            Self::WaterGlycol => "water–glycol",
        }
    }

    /// The column that a fluid is looked up in. Gear oil, power-steering fluid and hydraulic
    /// mineral oil are taken as engine oil and ATF (common practice). None for water, air, vacuum, refrigerant and the
    /// user's own words.
    pub fn of(fluid: &Fluid) -> Option<Self> {
        match fluid {
            Fluid::Petrol => Some(Self::Petrol),
            Fluid::PetrolE10 | Fluid::E85 => Some(Self::EthanolBlends),
            Fluid::Methanol => Some(Self::Methanol),
            Fluid::Diesel => Some(Self::Diesel),
            Fluid::EngineOil
            | Fluid::GearOil
            | Fluid::Atf
            | Fluid::PowerSteering
            | Fluid::HydraulicVg32
            | Fluid::HydraulicVg46
            | Fluid::HydraulicVg68 => Some(Self::Oil),
            Fluid::BrakeFluid => Some(Self::Dot),
            Fluid::Coolant => Some(Self::WaterGlycol),
            Fluid::Water | Fluid::Air | Fluid::Vacuum | Fluid::Refrigerant | Fluid::Other(_) => {
                None
            }
        }
    }
}

use Rating::{A, AToB, B, C, No};

/// Liner; petrol, ethanol blends, methanol, diesel, engine oil and ATF, DOT 3/4/5.1, water–glycol.
/// From memory.
const TABLE: [(&str, [Rating; 7]); 5] = [
    ("PTFE", [A, A, A, A, A, A, A]),
    ("NBR", [B, C, C, AToB, A, No, AToB]),
    ("EPDM", [No, AToB, A, No, No, A, A]),
    ("FKM", [A, AToB, No, A, A, No, B]),
    ("CPE", [C, B, C, B, A, No, A]),
];

/// What the table says of one liner and one fluid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// How well the liner stands it.
    pub rating: Rating,
    /// The column that was read; none where [`SOURCE_PTFE`] answered.
    pub column: Option<Column>,
    /// Where the rating comes from.
    pub source: &'static Source,
}

/// The liners of the table.
pub fn liners() -> impl Iterator<Item = &'static str> {
    TABLE.iter().map(|(liner, _)| *liner)
}

/// Looks up a liner (its word in either case) and a fluid. None where either is not in the table;
/// then nothing can be said.
pub fn lookup(liner: &str, fluid: &Fluid) -> Option<Entry> {
    static FROM_TABLE: Source = SOURCE;
    static FROM_PRACTICE: Source = SOURCE_PTFE;
    let (name, ratings) = TABLE.iter().find(|(l, _)| l.eq_ignore_ascii_case(liner.trim()))?;
    if let Some(column) = Column::of(fluid) {
        let rating = ratings[column as usize];
        return Some(Entry { rating, column: Some(column), source: &FROM_TABLE });
    }
    let stands_all = *name == "PTFE" && !matches!(fluid, Fluid::Other(_));
    stands_all.then_some(Entry { rating: A, column: None, source: &FROM_PRACTICE })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_corners_of_the_table() {
        let rating = |liner, fluid| lookup(liner, &fluid).map(|e| e.rating);
        assert_eq!(rating("NBR", Fluid::BrakeFluid), Some(No));
        assert_eq!(rating("nbr", Fluid::Petrol), Some(B));
        assert_eq!(rating("EPDM", Fluid::Petrol), Some(No));
        assert_eq!(rating("FKM", Fluid::Methanol), Some(No));
        assert_eq!(rating("CPE", Fluid::Coolant), Some(A));
        assert_eq!(rating("PTFE", Fluid::Air), Some(A));
    }

    #[test]
    fn what_is_not_listed_is_not_answered() {
        assert_eq!(lookup("NBR", &Fluid::Air), None);
        assert_eq!(lookup("silicone", &Fluid::Petrol), None);
        assert_eq!(lookup("PTFE", &Fluid::Other("chain oil".to_owned())), None);
    }
}
