//! Friction of a full pipe.

/// How a liquid flows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Regime {
    /// In layers: Re below 2040.
    Laminar,
    /// Neither nor: up to Re 3500 published methods differ by up to 60 %.
    Transitional,
    /// In eddies.
    Turbulent,
}

/// Flow in a pipe stays laminar below this Reynolds number, and between the two methods differ by up to
/// 60 % (fluids 1.3.1 and its methods set side by side; Re 2040 is where it leaves the laminar law).
const TRANSITION: [f64; 2] = [2040.0, 3500.0];

impl Regime {
    /// At a Reynolds number.
    pub fn at(reynolds: f64) -> Self {
        let [from, to] = TRANSITION;
        if reynolds < from {
            Self::Laminar
        } else if reynolds <= to {
            Self::Transitional
        } else {
            Self::Turbulent
        }
    }

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Laminar => "laminar",
            Self::Transitional => "transitional",
            Self::Turbulent => "turbulent",
        }
    }
}

/// Below this the formula is arranged so that its powers stay numbers of the machine; both
/// arrangements are the same formula.
const SMALL_RE: f64 = 100.0;

/// Smallest Reynolds number that is told from a standstill.
const LEAST_RE: f64 = 1e-300;

/// Darcy's friction factor at a Reynolds number and a roughness relative to the bore, all regimes:
/// Churchill (1977),
///
/// `f = 8 [(8/Re)^12 + (A + B)^−1.5]^(1/12)`, `A = {2.457 ln[1 / ((7/Re)^0.9 + 0.27 ε/D)]}^16`,
/// `B = (37530/Re)^16`.
///
/// Neither is to be negative.
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    let re = reynolds.max(LEAST_RE);
    let a = (2.457 * (1.0 / ((7.0 / re).powf(0.9) + 0.27 * relative_roughness)).ln()).powi(16);
    let b = (37_530.0 / re).powi(16);
    let turbulent = (a + b).powf(-1.5);
    if re < SMALL_RE {
        64.0 / re * (1.0 + turbulent * (re / 8.0).powi(12)).powf(1.0 / 12.0)
    } else {
        8.0 * ((8.0 / re).powi(12) + turbulent).powf(1.0 / 12.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn laminar_flow_has_64_over_re() {
        for re in [1e-200, 1e-9, 1.0, 99.0, 101.0, 800.0] {
            let f = friction_factor(re, 1e-4);
            assert!((f * re / 64.0 - 1.0).abs() < 1e-6, "{re}: {f}");
        }
        assert!(friction_factor(0.0, 0.0).is_finite());
    }

    #[test]
    fn both_arrangements_meet() {
        let (below, above) = (SMALL_RE * (1.0 - 1e-15), SMALL_RE);
        let ratio = friction_factor(below, 0.01) / friction_factor(above, 0.01);
        assert!((ratio - 1.0).abs() < 1e-14);
    }

    #[test]
    fn regimes() {
        for (re, word) in [
            (0.0, "laminar"),
            (2039.9, "laminar"),
            (2040.0, "transitional"),
            (3500.0, "transitional"),
            (3500.1, "turbulent"),
        ] {
            assert_eq!(Regime::at(re).word(), word);
        }
    }
}
