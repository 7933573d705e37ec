//! Errors that are independent of each other.

/// What several independent errors come to: the root of the sum of their squares. A hypotenuse would guard squares that leave the range of
/// numbers, which those of errors do not, and takes five times as long.
#[inline]
pub(super) fn in_quadrature<const N: usize>(errors: [f64; N]) -> f64 {
    errors.iter().map(|error| error * error).sum::<f64>().sqrt()
}
