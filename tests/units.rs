//! Quantities: what is shown can be typed again, and the bench never gets too short a figure.

use hosewright::units::{
    Angle, EPS_MM, Flow, FlowUnit, Length, LengthUnit, Measure, Percent, Pressure, PressureUnit,
    Temperature, TemperatureUnit, parse_count, parse_number,
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
    fn spaces_about_signs_change_nothing(sum in sum(), a in 0..4_usize, b in 0..4_usize) {
        let tight = read(&sum.written(0));
        prop_assert_eq!(&read(&sum.written(a)), &tight, "{}", sum.written(a));
        prop_assert_eq!(&read(&sum.written(b)), &tight, "{}", sum.written(b));
    }

    #[test]
    fn a_sum_comes_to_what_it_says(sum in sum()) {
        let (text, wanted) = (sum.written(1), sum.value());
        let read = Length::parse(&text, LengthUnit::Mm);
        prop_assert!(read.is_ok(), "{}: {:?}", text, read);
        let mm = read.unwrap().mm();
        prop_assert!((mm - wanted).abs() <= 1e-9 * wanted.abs().max(1e3), "{}: {} {}", text, mm, wanted);
    }

    #[test]
    fn sums_and_products_are_reckoned_from_the_left(
        a in 1..999_u32, b in 1..999_u32, c in 1..999_u32, first in 0..4_usize, second in 0..4_usize
    ) {
        let (first, second) = (["+", "-", "*", "/"][first], ["+", "-", "*", "/"][second]);
        let plain = parse_number(&format!("{a} {first} {b} {second} {c}")).unwrap();
        let binds_later = matches!(first, "+" | "-") && matches!(second, "*" | "/");
        let grouped = if binds_later {
            format!("{a} {first} ({b} {second} {c})")
        } else {
            format!("({a} {first} {b}) {second} {c}")
        };
        let grouped = parse_number(&grouped).unwrap();
        prop_assert!((plain - grouped).abs() <= 1e-12 * plain.abs().max(1.0), "{} {}", plain, grouped);
    }

    #[test]
    fn adding_does_not_mind_the_grouping(a in sum(), b in sum(), c in sum()) {
        let (a, b, c) = (a.written(1), b.written(1), c.written(1));
        let left = read(&format!("(({a}) + ({b})) + ({c})")).unwrap();
        let right = read(&format!("({a}) + (({b}) + ({c}))")).unwrap();
        prop_assert!((left - right).abs() <= 1e-9 * left.abs().max(1e3));
    }

    #[test]
    fn what_a_field_offers_to_change_reads_back_whole(
        stored in prop_oneof![-20_000.0..20_000.0_f64, (-9_999..9_999_i32).prop_map(|n| f64::from(n) / 8.0)]
    ) {
        for unit in [LengthUnit::Inch, LengthUnit::Mm] {
            let length = Measure::Length(unit);
            let read = length.parse(&length.typed(stored)).unwrap();
            prop_assert!((read - stored).abs() <= EPS_MM, "{}", length.typed(stored));
            let shown = length.shown(stored);
            let read = length.parse(&shown.text).unwrap();
            prop_assert_eq!((read - stored).abs() <= EPS_MM, shown.is_exact, "{}", shown.text);
        }
        let others = [
            Measure::Angle,
            Measure::Pressure(PressureUnit::Bar),
            Measure::Pressure(PressureUnit::Psi),
            Measure::Flow(FlowUnit::Lpm),
            Measure::Flow(FlowUnit::UsGpm),
            Measure::Percent,
            Measure::Number,
        ];
        for measure in others {
            let read = measure.parse(&measure.typed(stored)).unwrap();
            prop_assert!((read - stored).abs() <= 1e-9, "{:?} {}", measure, measure.typed(stored));
        }
        let warm = stored.abs();
        for unit in [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit] {
            let measure = Measure::Temperature(unit);
            let read = measure.parse(&measure.typed(warm)).unwrap();
            prop_assert!((read - warm).abs() <= 1e-9, "{}", measure.typed(warm));
        }
    }

    #[test]
    fn a_step_goes_the_way_it_says_and_no_further(stored in -5_000.0..5_000.0_f64, up in any::<bool>()) {
        for (measure, step) in [
            (Measure::Length(LengthUnit::Mm), 1.0),
            (Measure::Length(LengthUnit::Inch), STEP_MM),
            (Measure::Angle, 1.0),
        ] {
            let next = measure.step(stored, if up { 1 } else { -1 });
            let by = if up { next - stored } else { stored - next };
            prop_assert!(by > 0.0 && by <= step + 1e-6, "{:?} {} {}", measure, stored, next);
            prop_assert!(measure.shown(next).is_exact, "{:?} {}", measure, next);
        }
    }

    #[test]
    fn nothing_that_can_be_typed_breaks_it(text in any::<String>()) {
        read_as_everything(&text);
    }

    #[test]
    fn nothing_nearly_right_breaks_it(text in "[0-9 ./,'\"\u{2212}+\u{2044}½⅜°CFinmftpsbar()*×x÷%-]{0,24}") {
        read_as_everything(&text);
    }
}

/// A sum of terms such as `12 3/8 in`, `40`, `2 * 3.5 mm`, `(7 mm) / 2`.
#[derive(Debug, Clone)]
struct Sum(Vec<(bool, Term)>);

#[derive(Debug, Clone)]
struct Term {
    text: String,
    mm: f64,
    factor: Option<(bool, u32)>,
}

impl Sum {
    /// With so many spaces about its signs; without any, minus is U+2212, which joins nothing.
    fn written(&self, spaces: usize) -> String {
        let space = " ".repeat(spaces);
        let terms = self.0.iter().enumerate().map(|(i, (minus, term))| {
            let sign = match (minus, i) {
                (true, _) => format!("{space}\u{2212}{space}"),
                (false, 0) => String::new(),
                (false, _) => format!("{space}+{space}"),
            };
            match term.factor {
                None => format!("{sign}{}", term.text),
                Some((true, by)) => format!("{sign}{by}{space}*{space}({})", term.text),
                Some((false, by)) => format!("{sign}({}){space}/{space}{by}", term.text),
            }
        });
        terms.collect()
    }

    fn value(&self) -> f64 {
        let value = |term: &Term| match term.factor {
            None => term.mm,
            Some((true, by)) => term.mm * f64::from(by),
            Some((false, by)) => term.mm / f64::from(by),
        };
        self.0.iter().map(|(minus, term)| if *minus { -value(term) } else { value(term) }).sum()
    }
}

fn sum() -> impl Strategy<Value = Sum> {
    let quantity = prop_oneof![
        (1..999_u32, 1..16_u32).prop_map(|(whole, top)| {
            let inches = f64::from(whole) + f64::from(top) / 16.0;
            (format!("{whole} {top}/16 in"), inches * 25.4)
        }),
        (1..9_999_u32).prop_map(|tenths| {
            let mm = f64::from(tenths) / 10.0;
            (format!("{},{} mm", tenths / 10, tenths % 10), mm)
        }),
        (0..9_999_u32).prop_map(|mm| (format!("{mm}"), f64::from(mm))),
        (1..99_u32, 0..12_u32).prop_map(|(feet, inches)| {
            (format!("{feet}' {inches}\""), f64::from(feet * 12 + inches) * 25.4)
        }),
    ];
    let factor = proptest::option::of((any::<bool>(), 1..20_u32));
    let term = (quantity, factor).prop_map(|((text, mm), factor)| Term { text, mm, factor });
    proptest::collection::vec((any::<bool>(), term), 1..6).prop_map(Sum)
}

fn read(text: &str) -> Result<f64, String> {
    Length::parse(text, LengthUnit::Mm).map(Length::mm).map_err(|error| error.to_string())
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
        Percent::parse(text).map(Percent::pct),
        parse_number(text),
        parse_count(text).map(f64::from),
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

/// The table of `docs/numbers.md`, line by line.
#[test]
fn the_handbook_of_typing_tells_the_truth() {
    let page = include_str!("../docs/numbers.md");
    let mut lines = 0;
    for line in page.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let typed = cells[1].trim_matches('`');
        for (unit, told) in [(LengthUnit::Inch, cells[2]), (LengthUnit::Mm, cells[3])] {
            let measure = Measure::Length(unit);
            let read = measure.parse(typed);
            let found = read.map_or_else(|_| "refused".to_owned(), |mm| measure.show(mm));
            assert_eq!(found, told, "{typed}");
        }
        lines += 1;
    }
    assert_eq!(lines, 19);
}
