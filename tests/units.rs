//! Quantities: what is shown can be typed again, and the bench never gets too short a figure.

use hosewright::units::{
    Angle, EPS_MM, Flow, FlowUnit, Length, LengthUnit, Pressure, PressureUnit, Temperature,
    TemperatureUnit,
};
use proptest::prelude::*;

const STEP_MM: f64 = 25.4 / 16.0;

proptest! {
    #[test]
    fn a_length_shown_reads_back_within_half_a_step(mm in -20_000.0..20_000.0_f64) {
        let length = Length::from_mm(mm);
        for (unit, other, half) in [
            (LengthUnit::Inch, LengthUnit::Mm, STEP_MM / 2.0),
            (LengthUnit::Mm, LengthUnit::Inch, 0.05),
        ] {
            // With its unit, whatever the bay's unit is; and as a bare number of the bay's unit.
            let shown = Length::parse(&length.show(unit), other).unwrap();
            prop_assert!((shown.mm() - mm).abs() <= half + 1e-9);
            let bare = Length::parse(&length.number(unit), unit).unwrap();
            prop_assert_eq!(bare, shown);
        }
    }

    #[test]
    fn the_bench_figure_is_never_short_and_never_a_step_too_long(mm in -20_000.0..20_000.0_f64) {
        let length = Length::from_mm(mm);
        let whole = length.bench_mm() as f64;
        prop_assert!(whole >= mm - EPS_MM && whole < mm + 1.0);
        let sixteenths = length.bench_sixteenths() as f64 * STEP_MM;
        prop_assert!(sixteenths >= mm - EPS_MM - 1e-9 && sixteenths < mm + STEP_MM);
    }

    #[test]
    fn a_length_near_a_step_counts_as_on_it(steps in -10_000..10_000_i64, off in -0.9..0.9_f64) {
        let off_mm = off * EPS_MM;
        prop_assert_eq!(Length::from_mm(steps as f64 + off_mm).bench_mm(), steps);
        let sixteenths = Length::from_mm(steps as f64 * STEP_MM + off_mm).bench_sixteenths();
        prop_assert_eq!(sixteenths, steps);
    }

    #[test]
    fn an_inch_bench_figure_reads_back_as_itself(mm in 0.0..20_000.0_f64) {
        let length = Length::from_mm(mm);
        let read = Length::parse(&length.bench_inch(), LengthUnit::Inch).unwrap();
        prop_assert_eq!(read.bench_sixteenths(), length.bench_sixteenths());
        let read = Length::parse(&length.bench(LengthUnit::Mm), LengthUnit::Inch).unwrap();
        prop_assert_eq!(read.bench_mm(), length.bench_mm());
    }

    #[test]
    fn the_other_quantities_shown_read_back(value in -200.0..5_000.0_f64) {
        let angle = Angle::parse(&Angle::from_deg(value).show()).unwrap();
        prop_assert!((angle.deg() - value).abs() <= 0.05 + 1e-9);
        for unit in [PressureUnit::Bar, PressureUnit::Psi] {
            let shown = Pressure::from_bar(value).show(unit);
            let read = Pressure::parse(&shown, PressureUnit::Bar).unwrap();
            prop_assert!((read.bar() - value).abs() <= 0.05 + 1e-9, "{}", shown);
        }
        for unit in [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit] {
            let shown = Temperature::from_celsius(value).show(unit);
            let read = Temperature::parse(&shown, TemperatureUnit::Fahrenheit).unwrap();
            prop_assert!((read.celsius() - value).abs() <= 0.05 + 1e-9, "{}", shown);
        }
        for (unit, half) in [(FlowUnit::Lpm, 0.05), (FlowUnit::UsGpm, 0.19)] {
            let shown = Flow::from_lpm(value).show(unit);
            let read = Flow::parse(&shown, FlowUnit::Lpm).unwrap();
            prop_assert!((read.lpm() - value).abs() <= half + 1e-9, "{}", shown);
        }
    }

    #[test]
    fn a_sum_is_the_sum_of_its_terms(
        a in 0..20_000_i64, b in 0..20_000_i64, minus in any::<bool>(), spaced in any::<bool>()
    ) {
        let (inch, mm) = (Length::from_mm(a as f64 * STEP_MM), Length::from_mm(b as f64));
        let space = if spaced { " " } else { "" };
        let sign = if minus { '\u{2212}' } else { '+' };
        let text = format!("{}{space}{sign}{space}{}", inch.show(LengthUnit::Inch), mm.show(LengthUnit::Mm));
        let wanted = if minus { inch.mm() - mm.mm() } else { inch.mm() + mm.mm() };
        let read = Length::parse(&text, LengthUnit::Inch).unwrap();
        prop_assert!((read.mm() - wanted).abs() < 1e-9, "{}", text);
    }

    #[test]
    fn nothing_that_can_be_typed_breaks_it(text in any::<String>()) {
        read_as_everything(&text);
    }

    #[test]
    fn nothing_nearly_right_breaks_it(text in "[0-9 ./,'\"\u{2212}+\u{2044}½⅜°CFinmftpsbar-]{0,24}") {
        read_as_everything(&text);
    }
}

/// Reads a text as every quantity: finite, or refused with a place inside the text.
fn read_as_everything(text: &str) {
    let read = [
        Length::parse(text, LengthUnit::Inch).map(Length::mm),
        Length::parse(text, LengthUnit::Mm).map(Length::mm),
        Angle::parse(text).map(Angle::deg),
        Pressure::parse(text, PressureUnit::Psi).map(Pressure::bar),
        Temperature::parse(text, TemperatureUnit::Fahrenheit).map(Temperature::celsius),
        Flow::parse(text, FlowUnit::Lpm).map(Flow::lpm),
    ];
    for outcome in read {
        match outcome {
            Ok(value) => assert!(value.is_finite(), "{text}"),
            Err(error) => {
                assert!(text.get(error.range()).is_some(), "{text}");
                assert_eq!(error.pointed().lines().count(), 2, "{text}");
                assert!(!error.to_string().contains('\n'), "{text}");
            }
        }
    }
}

#[test]
fn every_sixteenth_shows_reduced_and_reads_back_exactly() {
    for sixteenths in 0..16 * 120_i32 {
        let length = Length::from_inches(f64::from(sixteenths) / 16.0);
        let shown = length.show(LengthUnit::Inch);
        assert_eq!(Length::parse(&shown, LengthUnit::Mm).unwrap(), length, "{shown}");
        if let Some((fraction, denominator)) = shown.trim_end_matches(" in").split_once('/') {
            let numerator: i32 = fraction.rsplit(' ').next().unwrap().parse().unwrap();
            let denominator: i32 = denominator.parse().unwrap();
            assert_eq!(numerator % 2, 1, "{shown}");
            assert!(numerator < denominator && 16 % denominator == 0, "{shown}");
        }
    }
}
