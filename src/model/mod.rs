//! The bay: what the builder has and wants. Plain data, no I/O, no derived figures.
//!
//! Lengths are millimetres, angles degrees, pressures bar (gauge), temperatures degrees Celsius,
//! flow litres per minute; field names carry the unit. Axes are those of ISO 8855 (vehicle axes):
//! X forward, Y to the left, Z up, right-handed.
//!
//! Derived figures (lengths, bends, findings) live in [`crate::engine`] and [`crate::checks`].

mod bay;
mod bench_record;
pub mod catalogue;
mod route;
mod solid;
mod source;
mod stock;
pub mod tolerance;
mod underlay;

pub use bay::{Bay, Body, Extra, Motion, Port, option_letter, unknown_keys};
pub use bench_record::{BenchRecord, LeakTest, Reading, TestMethod, TestResult};
pub use route::{Clamp, Corner, Duty, Medium, Routing, Run, RunEnd, Side, Via};
pub use solid::{Mesh, Nature, Shape, Solid};
pub use source::{Mark, Source};
pub use stock::{
    ClampSize, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, ShelfLength, Stock,
};
pub use underlay::{Content, Plane, Underlay, UnderlayEntry, straighten};

/// A name to be shown; what stands in for it where it is blank.
pub fn name_or<'a>(name: &'a str, other: &'a str) -> &'a str {
    if name.trim().is_empty() { other } else { name }
}
