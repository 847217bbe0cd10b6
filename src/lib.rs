//! Hosewright: from an engine bay to a trustworthy hose length sheet.
#[cfg(feature = "window")]
pub mod app;
pub mod checks;
pub mod cli;
pub mod clock;
pub mod document;
pub mod drawing;
pub mod engine;
pub mod export;
pub mod geom;
mod memo;
pub mod model;
pub mod remedy;
pub mod report;
pub mod units;
