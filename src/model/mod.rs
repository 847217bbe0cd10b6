//! The bay: what the builder has and wants. Plain data, no I/O, no derived figures.
//!
//! Lengths are millimetres, angles degrees, pressures bar (gauge), temperatures degrees Celsius,
//! flow litres per minute; field names carry the unit. Axes are those of ISO 8855 (vehicle axes):
//! X forward, Y to the left, Z up, right-handed.
//!
//! Derived figures (lengths, bends, findings) live in [`crate::engine`] and [`crate::checks`].

mod attachment;
mod background;
mod bay;
mod bench_record;
pub mod catalogue;
mod obstacle;
mod route;
mod sleeve;
mod source;
mod stock;
mod stock_entry;
mod tilt;
pub mod tolerance;

pub use attachment::Attachment;
pub use background::{Background, BackgroundEntry, Content, Plane, straighten};
pub use bay::{Bay, Extra, Motion, MovingGroup, Port, routing_letter, unknown_keys};
pub use bench_record::{BenchRecord, LeakTest, Reading, TestMethod, TestResult};
pub use obstacle::{Mesh, Nature, Obstacle, Shape};
pub use route::{Clamp, Corner, Fluid, Routing, Run, RunEnd, Service, Side, Via};
pub use sleeve::Sleeve;
pub use source::{Mark, Source};
pub use stock::{
    ClampSize, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, ShelfLength, Stock,
};
pub use stock_entry::{StockEntry, StockList};
pub use tilt::{Stance, Tilt};

/// Which way the axes of the bay go, each with its letter (ISO 8855, as above).
pub const AXES: [&str; 3] = ["nose X", "left Y", "up Z"];

/// A name to be shown; what stands in for it where it is blank.
pub fn name_or<'a>(name: &'a str, other: &'a str) -> &'a str {
    if name.trim().is_empty() { other } else { name }
}
