//! What flows through a hose, how fast, and what pressure that takes.
//!
//! Darcy–Weisbach over the whole hose with the friction factor of Churchill (1977), and for each bend what
//! Rennels (2012) adds beyond the friction of its arc. Not in it: end fittings, for their bores are their
//! makers'; height between the ends; what a laminar flow loses in bends beyond that.

mod bend;
mod cold;
mod friction;
mod liquid;
mod pipe;
mod run;
mod span;

pub use bend::{BendLoss, bend_loss};
pub use cold::{ColdStart, Passed};
pub use friction::{Regime, friction_factor};
pub use liquid::{Liquid, d341_mm2_s, liquid_at};
pub use pipe::{LEAST_BEND, Loss, Pipe, PipeBend};
pub use run::{FluidUsed, NoFlow, RunFlow, flow_in_run, flow_of};

/// What the figures are made by.
pub const METHOD: &str = "Darcy–Weisbach; friction Churchill 1977, bends Rennels 2012";
/// What is not in them.
pub const LEFT_OUT: &str = "end fittings and height are not in it";

fn bar(pa: f64) -> f64 {
    pa / 1e5
}
