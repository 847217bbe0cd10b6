//! The bend table of a wire in words, and as CSV.

use crate::engine::bend_table::{BendTable, STRAY_MM};
use crate::export::csv;
use crate::units::{Length, LengthUnit, significant};

/// A bend table as it is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct WireSheet {
    /// Of the columns, with their units.
    pub headings: [String; 7],
    /// In the order of bending; the last is the straight to cut end B.
    pub rows: Vec<[String; 7]>,
    /// What it is rounded to, and how near the wire then comes to the route.
    pub accuracy: String,
    /// How it is read, a paragraph each.
    pub how: Vec<String>,
}

/// The sign of the turn, in words for the bench.
const TURN: &str = "Turn: before bending, hold the straight with end A towards you and look along it to end B. Turn from the \
     inside of the bend before (where its centre is) to the inside of the next: + clockwise, \u{2212} anticlockwise. 0° goes on \
     the same way round, a U; 180° bends back the other way, an S.";
const ORDER: &str = "From end A: straight, turn, bend, row by row. Bend over a former, radii are to the middle of the wire; the \
     strip has a line where each bend begins and ends.";
const ROUTE: &str = "It is the drawn route, from cut end A to cut end B; the hose, cut with its slack, lies a little beside it. The \
     wire stands in for the hose's middle: hold it in the bay, end A to its set-back from the seat.";

impl WireSheet {
    pub(super) fn new(table: &BendTable, unit: LengthUnit) -> Self {
        let show = |mm: f64| in_steps(mm, table.step.mm, unit);
        let sign = unit.sign();
        let bends = (1..).zip(table.bends.iter().zip(table.marks()));
        let mut rows: Vec<[String; 7]> = bends
            .map(|(number, (bend, [from, to]))| {
                [
                    format!("bend {number}"),
                    show(bend.straight_mm),
                    if number == 1 {
                        "–".to_owned()
                    } else {
                        format!("{}°", signed(bend.turn_deg))
                    },
                    format!("{}°", significant(bend.bend_deg, 4)),
                    show(bend.radius_mm),
                    show(from),
                    show(to),
                ]
            })
            .collect();
        let none = String::new;
        let to_b = [show(table.tail_mm), none(), none(), none(), none(), show(table.length_mm())];
        let [straight, turn, bend, radius, starts, ends] = to_b;
        rows.push(["to cut end B".to_owned(), straight, turn, bend, radius, starts, ends]);
        Self {
            headings: [
                String::new(),
                format!("straight, {sign}"),
                "turn".to_owned(),
                "bend".to_owned(),
                format!("radius, {sign}"),
                format!("starts at, {sign}"),
                format!("ends at, {sign}"),
            ],
            rows,
            accuracy: accuracy(table, unit),
            how: [ORDER, TURN, ROUTE].map(str::to_owned).into(),
        }
    }
}

/// What the figures are rounded to, and how far the wire strays for it.
fn accuracy(table: &BendTable, unit: LengthUnit) -> String {
    let stray = |mm: f64| at_most(mm, unit);
    let step = match unit {
        LengthUnit::Mm => format!("{} mm", significant(table.step.mm, 2)),
        LengthUnit::Inch => format!("1/{} in", per_unit(table.step.mm, unit)),
    };
    let rounded = format!("Rounded to {step} and {}°", significant(table.step.deg, 2));
    let (is, was) = (stray(table.stray_mm), stray(table.coarse_stray_mm));
    if table.stray_mm > STRAY_MM {
        let limit = stray(STRAY_MM);
        return format!(
            "{rounded}, and even so the wire strays up to {is} from the drawn route, more than {limit}: bends follow \
             too close on one another, or the straights are too long. Check it against the bay."
        );
    }
    let why = if table.coarse_stray_mm > table.stray_mm {
        let coarse = match unit {
            LengthUnit::Mm => "1 mm",
            LengthUnit::Inch => "1/16 in",
        };
        format!(", for at {coarse} and 1° the wire would stray up to {was}")
    } else {
        String::new()
    };
    format!("{rounded}{why}. Bent by the table, the wire stays within {is} of the drawn route.")
}

/// A small distance, rounded up.
fn at_most(mm: f64, unit: LengthUnit) -> String {
    let up = |value: f64, steps: f64| significant((value * steps - 1e-6).ceil() / steps, 4);
    match unit {
        LengthUnit::Mm => format!("{} mm", up(mm, 10.0)),
        LengthUnit::Inch => format!("{} in", up(Length::from_mm(mm).inches(), 100.0)),
    }
}

/// Steps of the table in a millimetre, or in an inch.
fn per_unit(step_mm: f64, unit: LengthUnit) -> u32 {
    let one = match unit {
        LengthUnit::Mm => 1.0,
        LengthUnit::Inch => 25.4,
    };
    (one / step_mm).round() as u32
}

/// A length on the scale of the table, without its unit: `210`, `8 5/16`.
pub(super) fn in_steps(mm: f64, step_mm: f64, unit: LengthUnit) -> String {
    Length::from_mm(mm).in_steps(unit, per_unit(step_mm, unit))
}

/// Degrees with their sign: `+37`, `−120.5`, `0`, and `180`, which is the same either way.
pub(super) fn signed(deg: f64) -> String {
    let text = significant(deg, 4);
    if deg > 0.0 && deg < 180.0 { format!("+{text}") } else { text }
}

const COLUMNS: [&str; 11] = [
    "hose_id",
    "bend",
    "straight_mm",
    "turn_deg",
    "bend_deg",
    "radius_mm",
    "starts_at_mm",
    "ends_at_mm",
    "step_mm",
    "step_deg",
    "strays_mm",
];

/// The first line of [`bend_table_csv`].
pub(in crate::export) fn bend_table_header() -> String {
    csv::line(&COLUMNS.map(str::to_owned))
}

/// The table of a hose as CSV: a line a bend, exact figures of the table, the last one to cut end B.
pub fn bend_table_csv(id: &str, table: &BendTable) -> String {
    let mm = |value: f64| format!("{}", (value * 1e4).round() / 1e4);
    let tail = [table.step.mm, table.step.deg, table.stray_mm].map(mm);
    let line = |number: String, figures: [String; 6]| {
        let cells = [vec![id.to_owned(), number], figures.to_vec(), tail.to_vec()].concat();
        csv::line(&cells)
    };
    let mut out = bend_table_header();
    for (number, (bend, [from, to])) in (1..).zip(table.bends.iter().zip(table.marks())) {
        let figures = [bend.straight_mm, bend.turn_deg, bend.bend_deg, bend.radius_mm, from, to];
        out.push_str(&line(format!("{number}"), figures.map(mm)));
    }
    let none = String::new;
    let length = mm(table.length_mm());
    out.push_str(&line(none(), [mm(table.tail_mm), none(), none(), none(), none(), length]));
    out
}
