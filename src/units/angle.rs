//! Angles.

use super::decimal;
use super::parse::spelling::{ANGLE, DEGREE};
use super::parse::{ParseError, parse_sum};

/// An angle, kept in degrees.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// From degrees.
    pub const fn from_deg(deg: f64) -> Self {
        Self(deg)
    }

    /// In degrees.
    pub const fn deg(self) -> f64 {
        self.0
    }

    /// In radians.
    pub const fn radians(self) -> f64 {
        self.0.to_radians()
    }

    /// Reads what people type: `42.1`, `90°`, `45 deg`, `0.5 rad`. A bare number is in degrees.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(text: &str) -> Result<Self, ParseError> {
        parse_sum(text, &ANGLE, DEGREE).map(Self)
    }

    /// To the nearest 0.1 degree: `42.1°`, `90°`.
    pub fn show(self) -> String {
        format!("{}°", decimal(self.0, 1))
    }
}

#[cfg(test)]
mod tests {
    use super::Angle;

    #[test]
    fn angles_as_people_type_them() {
        for (text, deg) in
            [("42.1", 42.1), ("90°", 90.0), ("45 deg", 45.0), ("−30°", -30.0), ("90 - 22,5", 67.5)]
        {
            assert!((Angle::parse(text).unwrap().deg() - deg).abs() < 1e-12, "{text}");
        }
        let right = Angle::parse("1.5707963267948966 rad").unwrap();
        assert!((right.deg() - 90.0).abs() < 1e-12);
        assert!((right.radians() - std::f64::consts::FRAC_PI_2).abs() < 1e-12);
    }

    #[test]
    fn shown_to_a_tenth() {
        assert_eq!(Angle::from_deg(42.06).show(), "42.1°");
        assert_eq!(Angle::from_deg(90.0).show(), "90°");
        assert_eq!(Angle::from_deg(-3.0).show(), "\u{2212}3°");
    }
}
