//! A hose as the liquid sees it.

use std::f64::consts::FRAC_PI_4;

use super::bend::bend_loss;
use super::friction::{Regime, friction_factor};
use super::liquid::Liquid;

/// Centre-line radius over bore below which there is no answer: so sharply bent a hose kinks, and its bore
/// is not round any more (our own limit, no source).
pub const LEAST_BEND: f64 = 1.0;

/// A hose, full.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe<'a> {
    /// Bore, above 0.
    pub bore_mm: f64,
    /// Length that is really there.
    pub length_mm: f64,
    /// Roughness of its wall.
    pub roughness_mm: f64,
    /// Its bends.
    pub bends: &'a [PipeBend],
}

/// One bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeBend {
    /// Turning angle.
    pub angle_rad: f64,
    /// Centre-line radius; at least [`LEAST_BEND`] bores.
    pub radius_mm: f64,
}

/// What a flow takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loss {
    /// Mean velocity.
    pub velocity_m_s: f64,
    /// Reynolds number.
    pub reynolds: f64,
    /// Darcy's friction factor.
    pub friction_factor: f64,
    /// Pressure that the friction along the whole length takes.
    pub friction_pa: f64,
    /// Pressure that the bends take beyond that.
    pub bends_pa: f64,
}

impl Loss {
    /// Both together.
    pub fn total_pa(&self) -> f64 {
        self.friction_pa + self.bends_pa
    }

    /// How it flows.
    pub fn regime(&self) -> Regime {
        Regime::at(self.reynolds)
    }

    fn is_finite(&self) -> bool {
        self.velocity_m_s.is_finite() && self.reynolds.is_finite() && self.total_pa().is_finite()
    }
}

impl Pipe<'_> {
    /// What a flow takes, litres a minute, of whatever sign. None where that leaves the numbers of the
    /// machine.
    pub fn loss(&self, liquid: Liquid, flow_lpm: f64) -> Option<Loss> {
        let bore_m = self.bore_mm / 1000.0;
        let area_m2 = FRAC_PI_4 * bore_m * bore_m;
        let velocity_m_s = flow_lpm.abs() / 60_000.0 / area_m2;
        let reynolds = velocity_m_s * bore_m / (liquid.viscosity_mm2_s * 1e-6);
        let friction_factor = friction_factor(reynolds, self.roughness_mm / self.bore_mm);
        let head_pa = liquid.density_kg_m3 * velocity_m_s * velocity_m_s / 2.0;
        let beyond = self.bends.iter().map(|bend| {
            bend_loss(friction_factor, bend.angle_rad, bend.radius_mm / self.bore_mm).beyond
        });
        let loss = Loss {
            velocity_m_s,
            reynolds,
            friction_factor,
            friction_pa: friction_factor * self.length_mm / self.bore_mm * head_pa,
            bends_pa: beyond.sum::<f64>() * head_pa,
        };
        loss.is_finite().then_some(loss)
    }
}
