//! From the hoses of a routing to the saw and to the till: the cut list and the shopping list.

mod allowance;
mod cut_list;
pub mod optimum;
mod shopping;
mod spare;
mod stock;

pub use allowance::{Allowances, KERF_SOURCE, TRIM_SOURCE, default_kerf_mm};
pub use cut_list::{BarCuts, CutList, KindCuts, MetresCuts, Piece, Proof, Uncut, WhyUncut};
pub use shopping::{Amount, Group, Line, PLUGS_PER_SIZE, ShoppingList, Total};
pub use spare::{RemakeOfAll, Remakes, Spare, SpareHose};
pub use stock::{StockEntry, Supply};
