//! The figures by which routings of a bay are compared: what each takes, costs and weighs, and how near
//! its hoses come to their limits. What is better is told by [`crate::report::compare`].
//!
//! A figure that is not known is [`Found::NotKnown`] or a part of [`Sum::missing`], never zero.

mod drops;
mod figures;
mod found;
mod sum;
mod takes;

pub use figures::{Lack, RoutingFigures, RunAnswers, RunFigures};
pub use found::{Against, Found};
pub use sum::{Difference, Part, Sum};
pub use takes::{EndUse, HoseUse};
