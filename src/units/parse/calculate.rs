//! Sums, products and parentheses.

use super::number::number;
use super::scanner::{Operator, Scanner};
use super::{Fault, Grammar, ParseError, Terms, Unit, unexpected, unit};

/// Parentheses within parentheses: more than anybody types.
const MOST_NESTED: u32 = 32;

/// What has been read so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Value {
    /// A plain number: a factor, or a quantity in the unit asked for.
    Bare(f64),
    /// A quantity, in stored units.
    Measured(f64),
}

/// A factor, and whether a fraction without a unit stands at its end.
struct Factor {
    value: Value,
    barred: bool,
}

/// How one quantity is calculated.
pub(super) struct Calculation<'g> {
    grammar: &'g Grammar,
    bare: Unit,
}

impl<'g> Calculation<'g> {
    /// Bare numbers count in `bare`.
    pub(super) fn new(grammar: &'g Grammar, bare: Unit) -> Self {
        Self { grammar, bare }
    }

    /// A value in stored units.
    pub(super) fn stored(&self, value: Value) -> f64 {
        match value {
            Value::Bare(number) => self.bare.stored(number),
            Value::Measured(stored) => stored,
        }
    }

    /// The sum that stands here, in parentheses `nested` deep; stops before what is no part of it.
    pub(super) fn sum(&self, at: &mut Scanner, nested: u32) -> Result<Value, ParseError> {
        at.skip_spaces();
        let start = *at;
        let negative = at.take_sign().unwrap_or(false);
        let mut sum = self.product(at, negative, nested)?;
        while let Some(negative) = at.take_sign() {
            let next = self.product(at, negative, nested)?;
            sum = if let (Value::Bare(a), Value::Bare(b)) = (sum, next) {
                Value::Bare(a + b)
            } else {
                self.may_calculate(start, *at)?;
                Value::Measured(self.stored(sum) + self.stored(next))
            };
        }
        Ok(sum)
    }

    fn product(&self, at: &mut Scanner, negative: bool, nested: u32) -> Result<Value, ParseError> {
        let start = *at;
        let Factor { mut value, mut barred } = self.factor(at, negative, false, nested)?;
        loop {
            let before = *at;
            let Some(operator) = at.take_operator() else { return Ok(value) };
            if barred && operator == Operator::TightBar {
                return Err(before.error(before.rest().trim_end().len(), Fault::TwoWays));
            }
            let negative = at.take_sign().unwrap_or(false);
            at.skip_spaces();
            let second = *at;
            let next = self.factor(at, negative, operator != Operator::Times, nested)?;
            value = match operator {
                Operator::Times => {
                    times(value, next.value).ok_or_else(|| second.error_to(at, Fault::Product))?
                }
                Operator::Bar | Operator::TightBar => match next.value {
                    Value::Measured(_) => return Err(second.error_to(at, Fault::Divisor)),
                    Value::Bare(0.0) => return Err(second.error_to(at, Fault::DividedByZero)),
                    Value::Bare(by) => over(value, by),
                },
            };
            if matches!(value, Value::Measured(_)) {
                self.may_calculate(start, *at)?;
            }
            barred = next.barred;
        }
    }

    fn factor(
        &self,
        at: &mut Scanner,
        negative: bool,
        divides: bool,
        nested: u32,
    ) -> Result<Factor, ParseError> {
        at.skip_spaces();
        // The sign belongs to the number: −40 °F is −40 °C, not −(40 °F).
        let signed = |number: f64| if negative { -number } else { number };
        let start = *at;
        if at.take(|c| c == '(').is_some() {
            let value = self.parenthesis(at, start, negative, nested)?;
            return Ok(Factor { value, barred: false });
        }
        let number = number(at, divides)?;
        let Some(unit) = unit(at, self.grammar)? else {
            return Ok(Factor { value: Value::Bare(signed(number.value)), barred: number.barred });
        };
        let mut stored = unit.stored(signed(number.value));
        if let Some((larger, smaller)) = self.grammar.joined
            && unit == larger
        {
            stored += smaller.stored(signed(self.joined(at, smaller)?));
        }
        Ok(Factor { value: Value::Measured(stored), barred: false })
    }

    /// What is joined to a number in the larger unit, in the smaller one; 0 if nothing is.
    fn joined(&self, at: &mut Scanner, smaller: Unit) -> Result<f64, ParseError> {
        let before = *at;
        if !at.take_joint() {
            return Ok(0.0);
        }
        let digits = at.rest().bytes().take_while(u8::is_ascii_digit).count();
        if before.rest().len() == at.rest().len() && digits == 3 {
            return Err(at.error(digits, Fault::FeetOrThousands));
        }
        let number = number(at, false)?;
        let before_unit = *at;
        match unit(at, self.grammar)? {
            Some(unit) if unit != smaller => Err(unexpected(before_unit)),
            _ => Ok(number.value),
        }
    }

    /// The rest of what began with a parenthesis at `start`.
    fn parenthesis(
        &self,
        at: &mut Scanner,
        start: Scanner,
        negative: bool,
        nested: u32,
    ) -> Result<Value, ParseError> {
        if nested == MOST_NESTED {
            return Err(start.error(1, Fault::TooDeep));
        }
        let inner = self.sum(at, nested + 1)?;
        at.skip_spaces();
        if at.take(|c| c == ')').is_none() {
            let fault = if at.at_end() { Ok(()) } else { Err(unexpected(*at)) };
            return Err(fault
                .err()
                .unwrap_or_else(|| start.error(start.rest().trim_end().len(), Fault::NotClosed)));
        }
        let signed = |number: f64| if negative { -number } else { number };
        let before_unit = *at;
        match (inner, unit(at, self.grammar)?) {
            (Value::Bare(number), Some(unit)) => Ok(Value::Measured(unit.stored(signed(number)))),
            (Value::Bare(number), None) => Ok(Value::Bare(signed(number))),
            (Value::Measured(_), Some(_)) => Err(unexpected(before_unit)),
            (Value::Measured(stored), None) => {
                if negative {
                    self.may_calculate(start, *at)?;
                }
                Ok(Value::Measured(signed(stored)))
            }
        }
    }

    /// Refuses to calculate with quantities whose units have zeros of their own.
    fn may_calculate(&self, from: Scanner, to: Scanner) -> Result<(), ParseError> {
        match self.grammar.terms {
            Terms::Sum => Ok(()),
            Terms::One => Err(from.error_to(&to, Fault::OneOnly)),
        }
    }
}

/// None where both are quantities.
fn times(a: Value, b: Value) -> Option<Value> {
    Some(match (a, b) {
        (Value::Bare(a), Value::Bare(b)) => Value::Bare(a * b),
        (Value::Bare(a), Value::Measured(b)) | (Value::Measured(a), Value::Bare(b)) => {
            Value::Measured(a * b)
        }
        (Value::Measured(_), Value::Measured(_)) => return None,
    })
}

fn over(value: Value, by: f64) -> Value {
    match value {
        Value::Bare(number) => Value::Bare(number / by),
        Value::Measured(stored) => Value::Measured(stored / by),
    }
}
