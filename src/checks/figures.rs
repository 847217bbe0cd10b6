//! Figures as the reader of a message wants them: in the bay's units.

use crate::model::Fluid;
use crate::units::{
    EPS_MM, Length, LengthUnit, Pressure, PressureUnit, Temperature, TemperatureUnit,
};

/// Shows figures in a bay's units. Pressures go with lengths: psi beside inches, bar beside mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Figures {
    pub(super) unit: LengthUnit,
}

impl Figures {
    /// `314.3 mm`, `12 3/8 in`
    pub(super) fn length(self, mm: f64) -> String {
        Length::from_mm(mm).show(self.unit)
    }

    /// Two lengths that differ, to as many places as it takes to see the difference.
    pub(super) fn lengths(self, a_mm: f64, b_mm: f64) -> (String, String) {
        let value = |mm: f64| match self.unit {
            LengthUnit::Mm => mm,
            LengthUnit::Inch => Length::from_mm(mm).inches(),
        };
        apart((self.length(a_mm), self.length(b_mm)), (value(a_mm), value(b_mm)), self.unit.sign())
    }

    /// A length that is not zero, to as many places as it takes to see that.
    pub(super) fn depth(self, mm: f64) -> String {
        self.lengths(mm, 0.0).0
    }

    /// Rounded up to the bench's step, so that the figure is enough.
    pub(super) fn length_up(self, mm: f64) -> String {
        let step = self.unit.bench_step_mm();
        self.length((mm / step - EPS_MM).ceil().max(1.0) * step)
    }

    /// Two pressures, as [`Self::lengths`].
    pub(super) fn pressures(self, a_bar: f64, b_bar: f64) -> (String, String) {
        let unit = PressureUnit::from(self.unit);
        let value = |bar: f64| match unit {
            PressureUnit::Bar => bar,
            PressureUnit::Psi => Pressure::from_bar(bar).psi(),
        };
        let show = |bar: f64| Pressure::from_bar(bar).show(unit);
        apart((show(a_bar), show(b_bar)), (value(a_bar), value(b_bar)), unit.sign())
    }

    /// `121 °C`, `249.8 °F`
    pub(super) fn temperature(self, celsius: f64) -> String {
        Temperature::from_celsius(celsius).show(self.unit)
    }

    /// Two temperatures, as [`Self::lengths`].
    pub(super) fn temperatures(self, a_c: f64, b_c: f64) -> (String, String) {
        let unit = TemperatureUnit::from(self.unit);
        let value = |celsius: f64| match unit {
            TemperatureUnit::Celsius => celsius,
            TemperatureUnit::Fahrenheit => Temperature::from_celsius(celsius).fahrenheit(),
        };
        apart((self.temperature(a_c), self.temperature(b_c)), (value(a_c), value(b_c)), unit.sign())
    }

    /// A fluid by its name where these units are used: petrol or gasoline.
    pub(super) fn fluid(self, fluid: &Fluid) -> String {
        fluid.name_in(self.unit)
    }

    /// An angle to the nearest 0.1°.
    pub(super) fn degrees(degrees: f64) -> String {
        format!("{}°", trimmed(degrees, 1))
    }

    /// Two angles, as [`Self::lengths`].
    pub(super) fn two_degrees(a: f64, b: f64) -> (String, String) {
        apart((Self::degrees(a), Self::degrees(b)), (a, b), "°")
    }

    /// A share in per cent, to two places.
    pub(super) fn percent(percent: f64) -> String {
        format!("{} %", trimmed(percent, 2))
    }
}

/// `shown` where its two texts differ; else the values to more places.
fn apart(shown: (String, String), values: (f64, f64), sign: &str) -> (String, String) {
    if shown.0 != shown.1 {
        return shown;
    }
    [2, 3, 4, 6, 8]
        .into_iter()
        .map(|places| (trimmed(values.0, places), trimmed(values.1, places)))
        .find(|(a, b)| a != b)
        .map_or(shown, |(a, b)| {
            let space = if sign == "°" { "" } else { " " };
            (format!("{a}{space}{sign}"), format!("{b}{space}{sign}"))
        })
}

/// To `places` decimals, zeros at the end dropped, with a true minus sign.
fn trimmed(value: f64, places: usize) -> String {
    let text = format!("{:.places$}", value.abs());
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if value < 0.0 && text != "0" { format!("\u{2212}{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_figures_are_told_apart() {
        let mm = Figures { unit: LengthUnit::Mm };
        assert_eq!(mm.lengths(71.0, 102.0), ("71 mm".into(), "102 mm".into()));
        assert_eq!(mm.lengths(101.98, 102.0), ("101.98 mm".into(), "102 mm".into()));
        let inch = Figures { unit: LengthUnit::Inch };
        assert_eq!(inch.lengths(101.0, 101.6), ("3.98 in".into(), "4 in".into()));
        assert_eq!(inch.lengths(76.2, 101.6), ("3 in".into(), "4 in".into()));
        assert_eq!(mm.pressures(103.42, 103.41), ("103.42 bar".into(), "103.41 bar".into()));
        assert_eq!(mm.temperatures(121.04, 121.0), ("121.04 °C".into(), "121 °C".into()));
        assert_eq!(Figures::two_degrees(1.18, 1.1935), ("1.18°".into(), "1.19°".into()));
        assert_eq!(Figures::two_degrees(5.0, 1.1935), ("5°".into(), "1.2°".into()));
        assert_eq!((inch.depth(0.1), inch.depth(3.175)), ("0.004 in".into(), "1/8 in".into()));
    }

    #[test]
    fn what_is_to_be_given_is_rounded_up_to_the_bench_step() {
        let mm = Figures { unit: LengthUnit::Mm };
        assert_eq!(
            (mm.length_up(1.0), mm.length_up(1.2), mm.length_up(0.0)),
            ("1 mm".into(), "2 mm".into(), "1 mm".into())
        );
        assert_eq!(Figures { unit: LengthUnit::Inch }.length_up(25.5), "1 1/16 in");
    }

    #[test]
    fn inches_bring_psi_and_fahrenheit() {
        let inch = Figures { unit: LengthUnit::Inch };
        assert_eq!(inch.pressures(69.0, 34.5), ("1001 psi".into(), "500 psi".into()));
        assert_eq!(inch.temperature(100.0), "212 °F");
        assert_eq!(Figures { unit: LengthUnit::Mm }.temperature(-54.0), "\u{2212}54 °C");
    }
}
