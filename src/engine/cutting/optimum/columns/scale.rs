//! A whole cost as one whole number, so that a linear program can weigh it: the same order, exactly.

use super::super::cost::Cost;
use super::super::problem::Steps;

/// Larger numbers are not calculated with: fixed-point duals times a length must stay in 128 bits.
const LARGEST: i128 = 1 << 70;

/// Weights for the fields of a [`Cost`], worst first: mixed radix, each field in its own step.
#[derive(Debug, Clone)]
pub(super) struct Scale {
    steps: [i128; 5],
    weights: [i128; 5],
}

impl Scale {
    /// For the cut lists of a question; none where the numbers would be too large.
    pub(super) fn of(steps: &Steps, demand: &[usize]) -> Option<Self> {
        let pieces = demand.iter().sum::<usize>() as i128;
        let outside = steps.sizes.iter().map(|size| steps.outside.times(i128::from(*size)));
        let (mut step, mut most) = ([0; 5], [0; 5]);
        for cost in steps.stock.iter().map(|bar| bar.cost).chain(outside) {
            for (field, part) in cost.parts().into_iter().enumerate() {
                step[field] = gcd(step[field], part);
                most[field] = i128::max(most[field], part);
            }
        }
        let step = step.map(|step| step.max(1));
        let mut weights = [1; 5];
        let mut weight: i128 = 1;
        // No cut list of use has more bars than pieces.
        for field in (0..5).rev() {
            weights[field] = weight;
            weight = weight.checked_mul((most[field] / step[field]).checked_mul(pieces)? + 1)?;
        }
        (weight <= LARGEST).then_some(Self { steps: step, weights })
    }

    /// The number of a cost.
    pub(super) fn number(&self, cost: Cost) -> i128 {
        let fields = cost.parts().into_iter().zip(self.steps).zip(self.weights);
        fields.map(|((part, step), weight)| part / step * weight).sum()
    }

    /// The least cost whose number is no less than this one.
    pub(super) fn cost(&self, number: i128) -> Cost {
        let mut rest = number.max(0);
        let mut parts = [0; 5];
        for (field, part) in parts.iter_mut().enumerate() {
            *part = rest / self.weights[field] * self.steps[field];
            rest %= self.weights[field];
        }
        Cost::from_parts(parts)
    }
}

fn gcd(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { gcd(b, a % b) }
}
