//! What an oil does at a cold start: what the flow would take, and what the pressure that is there passes.

use super::bar;
use super::liquid::{Liquid, liquid_at};
use super::pipe::{Loss, Pipe};
use super::span::extremes;
use crate::model::Service;
use crate::model::catalogue::fluids::{Known, KnownFluid};

/// A cold start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdStart {
    /// How cold.
    pub celsius: f64,
    /// The most that the flow of the service would take.
    pub loss: Loss,
    /// What the pressure of the service passes, where it is too little for that flow.
    pub passed: Option<Passed>,
}

/// The flow that a pressure passes, all of it spent on the hose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passed {
    /// The pressure of the service.
    pub pressure_bar: f64,
    /// The least and the most of all that the fluid may be; alike where there is but one.
    pub flow_lpm: [f64; 2],
}

impl ColdStart {
    /// The most that the flow of the service would take.
    pub fn drop_bar(&self) -> f64 {
        bar(self.loss.total_pa())
    }
}

/// A cold start, where the fluid is an oil that is warmer in service.
pub(super) fn cold_start(
    pipe: &Pipe<'_>,
    fluid: &KnownFluid,
    service: &Service,
) -> Option<ColdStart> {
    let Known::Oils(oils) = &fluid.known else { return None };
    let celsius =
        oils.cold_start_c.filter(|cold| service.temperature_c.is_some_and(|c| c > *cold))?;
    let liquids = liquid_at(&fluid.known, celsius)?;
    let flow_lpm = service.flow_lpm?;
    let (_, loss) = extremes(pipe, liquids, flow_lpm)?;
    let given = service.pressure_bar.filter(|given| *given > 0.0 && *given < bar(loss.total_pa()));
    let passed = given.and_then(|pressure_bar| {
        let flow_lpm = flow_passed(pipe, liquids, flow_lpm.abs(), pressure_bar)?;
        Some(Passed { pressure_bar, flow_lpm })
    });
    Some(ColdStart { celsius, loss, passed })
}

/// The least and the most of a flow up to `wanted_lpm` that a pressure passes.
fn flow_passed(
    pipe: &Pipe<'_>,
    liquids: [Liquid; 2],
    wanted_lpm: f64,
    pressure_bar: f64,
) -> Option<[f64; 2]> {
    let most_lost = |lpm: f64| Some(bar(extremes(pipe, liquids, lpm)?.1.total_pa()));
    let least_lost = |lpm: f64| Some(bar(extremes(pipe, liquids, lpm)?.0));
    let least = flow_at(&most_lost, wanted_lpm, pressure_bar)?;
    let most = flow_at(&least_lost, wanted_lpm, pressure_bar)?;
    Some([least, most])
}

/// The flow that loses `pressure_bar`, at most `wanted_lpm`: a loss rises with its flow, and no slower than
/// in proportion, so that the logarithms of both run nearly straight and the answer lies in the bracket.
fn flow_at(
    lost_bar: &impl Fn(f64) -> Option<f64>,
    wanted_lpm: f64,
    pressure_bar: f64,
) -> Option<f64> {
    const ENOUGH: f64 = 1e-9;
    let off = |log: f64| Some((lost_bar(log.exp())? / pressure_bar).ln()).filter(|v| v.is_finite());
    let mut high = (wanted_lpm.ln(), off(wanted_lpm.ln())?);
    if high.1 <= 0.0 {
        return Some(wanted_lpm);
    }
    let mut low = (high.0 - high.1, off(high.0 - high.1)?);
    if low.1 > ENOUGH {
        return None;
    }
    let mut last = 0_i8;
    for _ in 0..100 {
        let log = if high.1 > low.1 {
            low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1)
        } else {
            low.0.midpoint(high.0)
        };
        let value = off(log)?;
        if value.abs() <= ENOUGH || high.0 - low.0 <= ENOUGH {
            return Some(log.exp());
        }
        // Illinois: the end that stays twice counts half, so that both ends move in.
        let side = if value > 0.0 { 1 } else { -1 };
        if side > 0 {
            high = (log, value);
            low.1 *= if last == side { 0.5 } else { 1.0 };
        } else {
            low = (log, value);
            high.1 *= if last == side { 0.5 } else { 1.0 };
        }
        last = side;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flow_is_found_in_its_bracket() {
        // Straight, squared, and with a knee.
        let laws: [fn(f64) -> f64; 3] =
            [|q| 3.0 * q, |q| 0.2 * q * q, |q| if q < 2.0 { q } else { q.powi(6) / 32.0 }];
        for law in laws {
            for pressure in [1e-9, 0.3, 1.9, 2.1, 40.0] {
                let got = flow_at(&|q| Some(law(q)), 50.0, pressure).unwrap();
                assert!((law(got) / pressure - 1.0).abs() < 1e-8, "{pressure}: {got}");
            }
        }
        assert_eq!(flow_at(&|q| Some(3.0 * q), 5.0, 15.1), Some(5.0));
    }
}
