//! From the hoses of an option to the saw and to the till: the cutting plan and the shopping list.

mod allowance;
pub mod optimum;
mod plan;
mod shopping;
mod spare;
mod stock;

pub use allowance::{Allowances, DEFAULT_KERF_MM, KERF_SOURCE, TRIM_SOURCE};
pub use plan::{BarPlan, CuttingPlan, KindPlan, MetresPlan, Piece, Proof, Uncut, WhyUncut};
pub use shopping::{Amount, Group, Line, PLUGS_PER_SIZE, ShoppingList, Total};
pub use spare::{RemakeOfAll, Remakes, Spare, SpareHose};
pub use stock::{StockEntry, Supply};
