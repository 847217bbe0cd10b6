//! A cut list and its shopping list in words, the same wherever they are shown.

use crate::engine::cutting::{
    Amount, CutList, Group, KindCuts, Line, PLUGS_PER_SIZE, Piece, Proof, RemakeOfAll, Spare,
    SpareHose, Supply, Total, WhyUncut,
};
use crate::units::{Derived, Length, LengthUnit};

/// What no figure holds.
pub const NOT_COUNTED: &str = "Prices are those of the bay file, in its own money. Not counted: sleeves, carriage, \
    lubricant, new ferrules where ends are used again. Two lengths are never joined.";

/// A length of the cut list: pieces are on the bench's step, so that nothing is lost by showing it so.
pub fn length(mm: f64, unit: LengthUnit) -> String {
    Length::from_mm(mm).show(unit)
}

/// Hose that is sold cut to length: feet with inches, `3 ft 7/16 in`, or millimetres.
pub fn sold(mm: f64, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Inch => Length::from_mm(mm).bench_feet(),
        LengthUnit::Mm => Length::from_mm(mm).bench(unit),
    }
}

/// How that hose is sold and priced.
pub fn by_length(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "by the foot",
        LengthUnit::Mm => "by the metre",
    }
}

/// How much of a line is to be bought.
pub fn how_much(line: &Line, unit: LengthUnit) -> String {
    match line.amount {
        Amount::Pieces(n) => n.to_string(),
        Amount::Length(mm) => sold(mm, unit),
    }
}

/// What one costs, or a metre or a foot of it: `2.10`, `4.27/ft`.
pub fn each(line: &Line, unit: LengthUnit) -> Option<String> {
    let price = line.unit_price?;
    Some(match line.amount {
        Amount::Pieces(_) => format!("{price:.2}"),
        Amount::Length(_) => {
            let sign = Derived::HoseSold.sign(unit);
            format!("{:.2}/{sign}", Derived::hose_price(price, unit))
        }
    })
}

/// How many pieces.
pub fn pieces(count: usize) -> String {
    if count == 1 { "1 piece".to_owned() } else { format!("{count} pieces") }
}

/// What a rest is good for yet: for these, by name.
pub fn good_for(names: &str) -> String {
    match names {
        "" => "good for none of these again".to_owned(),
        some => format!("good for one more of: {some}"),
    }
}

/// How a length is come by.
pub fn supply(supply: Supply) -> String {
    match supply {
        Supply::Shelf => "on the shelf".to_owned(),
        Supply::Buy(price) => format!("to buy, {price:.2}"),
        Supply::BuyUnpriced => "to buy, price unknown".to_owned(),
    }
}

/// That a piece is not cut, why, and what to do.
pub fn uncut(piece: &Piece, why: WhyUncut, unit: LengthUnit) -> String {
    let why = match why {
        WhyUncut::TooLong { longest_mm } => format!(
            "longer, with its trim, than the longest there is ({})",
            length(longest_mm, unit)
        ),
        WhyUncut::NotEnough => why.to_string(),
    };
    let (name, long) = (&piece.name, length(piece.cut_mm, unit));
    format!("{name}, {long}: {why}. Get one that is long enough; never join two")
}

/// What is to be bought, together.
pub fn total(total: Total) -> String {
    let unknown = match total.unknown_lines {
        0 => "every price is known".to_owned(),
        1 => "and 1 line whose price is unknown and not in it".to_owned(),
        n => format!("and {n} lines whose price is unknown and not in it"),
    };
    format!("To buy: {:.2}, {unknown}.", total.known)
}

/// One remake of every hose, as one figure.
pub fn remake_of_all(all: &RemakeOfAll) -> String {
    let unknown = |total: Total, one: &str, many: &str| match total.unknown_lines {
        0 => String::new(),
        1 => format!(" and 1 {one} of no known price"),
        n => format!(" and {n} {many} of no known price"),
    };
    let hose = unknown(all.hose, "kind of hose", "kinds of hose");
    let proven = if all.hose_is_proven { "" } else { ", not proven the least" };
    let ends = unknown(all.ends, "pair", "pairs");
    let short = match all.not_to_be_had {
        0 => String::new(),
        1 => " For 1 of them there would be no hose.".to_owned(),
        n => format!(" For {n} of them there would be no hose."),
    };
    format!(
        "Every hose once more, from what is left and what there is: hose {:.2}{hose}{proven}; all ends \
         new {:.2}{ends}.{short}",
        all.hose.known, all.ends.known
    )
}

/// How good the cut list of a kind is, and what it costs.
pub fn proof(kind: &KindCuts) -> String {
    // What is unknown is not nought.
    let cost = match (kind.unpriced_mm > 0.0, kind.cost > 0.0) {
        (true, false) => "Hose at an unknown price".to_owned(),
        (true, true) => format!("Hose for {:.2}, beside what has no price", kind.cost),
        (false, _) => format!("Hose for {:.2}", kind.cost),
    };
    // Where a price is unknown nothing is said of the cheapest.
    match kind.proof {
        Proof::Best if kind.unpriced_mm > 0.0 && kind.cost > 0.0 => {
            format!("{cost}. Which cut list is cheapest is unknown until every price is given.")
        }
        Proof::Best if kind.unpriced_mm > 0.0 => {
            format!(
                "{cost}. Proven: no cut list opens less hose. Prices would tell which is cheapest."
            )
        }
        Proof::Best => {
            format!("{cost}. Proven: no cut list costs less, nor opens less hose for as much.")
        }
        Proof::Within { at_least } => match gap_in_percent(kind.cost, at_least) {
            Some(gap) => format!(
                "{cost}. Not proven the cheapest: at most {gap} % more than the cheapest there can be, \
                 {at_least:.2}."
            ),
            None => format!("{cost}. Not proven the best: there are too many ways to cut it."),
        },
        Proof::Unsound => {
            "This cut list did not hold when it was gone over again: do not use it.".to_owned()
        }
    }
}

/// How much more a cost is than another, up to a tenth of a per cent; none where that says nothing.
fn gap_in_percent(cost: f64, at_least: f64) -> Option<f64> {
    let gap = (cost / at_least - 1.0) * 100.0;
    (at_least > 0.0 && gap >= 0.0).then(|| (gap * 10.0).ceil() / 10.0)
}

/// A line of the list but for its name.
pub fn detail(line: &Line, unit: LengthUnit) -> String {
    match line.group {
        Group::Hose => match line.length_mm {
            Some(mm) => format!("of {}", length(mm, unit)),
            None => by_length(unit).to_owned(),
        },
        Group::End => match line.angle_deg {
            Some(angle) if angle > 0.0 => format!("{angle}\u{b0}"),
            _ => "straight".to_owned(),
        },
        Group::Clamp => match line.outside_mm {
            Some(mm) => format!("for hose of {} OD", Length::from_mm(mm).show_significant(unit, 3)),
            None => "OD unknown, measure the hose".to_owned(),
        },
        Group::Plug => format!("{PLUGS_PER_SIZE} for each size (common practice)"),
    }
}

/// Where the hose of a remake comes from.
pub fn spare_hose(cut_list: &CutList, spare: &Spare, unit: LengthUnit) -> String {
    let of_run = |kind: &&KindCuts| kind.pieces.iter().any(|piece| piece.run == spare.run);
    let Some(kind) = cut_list.kinds.iter().find(of_run) else { return String::new() };
    match spare.hose {
        SpareHose::Leftover { bar } => kind.bars.get(bar).map_or_else(String::new, |bar| {
            format!("what is left of a length, {}", length(bar.left_mm, unit))
        }),
        SpareHose::Length { stock, .. } => kind.stock.get(stock).map_or_else(String::new, |one| {
            format!("one more length of {}", length(one.length_mm, unit))
        }),
        SpareHose::Metres { length_mm, .. } => {
            format!("{} more {}", sold(length_mm, unit), by_length(unit))
        }
        SpareHose::Nowhere => "nothing there is".to_owned(),
    }
}
