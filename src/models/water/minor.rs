//! Solutes that nobody weighs: the salts of milk and the solubles of cocoa.

use crate::matter::{Composition, Constituent};

/// Moles of minor dissolved particles in a kilogram of the whole, by the constituent they come with; taken as ideal.
///
/// # Equation
/// Milk: 1.15 mmol per gram of non-fat milk solids (lactose, milk protein and milk salts together), only where there are milk salts.
/// Cocoa: 1.0 mmol per gram of fat-free cocoa.
///
/// # Units
/// mol/kg of the whole.
///
/// # Range
/// Lactose hidden in sugars of unknown kind does not count here. Other minerals are a solute of their own, see [`super::Solute`].
///
/// # Error
/// Milk: about a tenth, for ordinary milk. Cocoa: order of magnitude; alkalised cocoa holds more.
///
/// # Worked value
/// Skim milk freezes near -0.53 °C, and a mole in a kilogram of water lowers that by 1.86 K: lactose and salts together are 0.285 mol/kg
/// (both memory).
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::minor_osmoles;
/// use cordial::units::{Checked, MassFraction};
/// let parts = [
///     (Constituent::Water, 0.91),
///     (Constituent::Lactose, 0.048),
///     (Constituent::MilkProtein, 0.0345),
///     (Constituent::MilkSalts, 0.0075),
/// ];
/// let milk = Composition::new(parts.map(|(constituent, part)| (constituent, MassFraction::nearest(part))))?;
/// let salts: f64 = minor_osmoles(&milk).map(|(_, moles)| moles).sum();
/// let lactose = 48.0 / 342.3;
/// assert!(((lactose + salts) / 0.91 / (0.53 / 1.86) - 1.0).abs() < 0.1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Milk: from its freezing point. Cocoa: estimate. Both known from memory.
pub fn minor_osmoles(composition: &Composition) -> impl Iterator<Item = (Constituent, f64)> {
    beside_hidden_lactose(composition, 0.0).into_iter()
}

/// The same beside lactose that is hidden in sugars of unknown kind: salts come with it, if there is milk protein to vouch for it.
pub(super) fn beside_hidden_lactose(composition: &Composition, hidden: f64) -> [(Constituent, f64); 2] {
    let [salts, protein] = [Constituent::MilkSalts, Constituent::MilkProtein].map(|constituent| composition.of(constituent));
    let lactose = composition.of(Constituent::Lactose) + if protein > 0.0 { hidden } else { 0.0 };
    let milk_solids = if salts > 0.0 { lactose + protein + salts } else { 0.0 };
    [(Constituent::MilkSalts, 1.15 * milk_solids), (Constituent::FatFreeCocoa, 1.0 * composition.of(Constituent::FatFreeCocoa))]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::{Checked, MassFraction};
    use approx::assert_relative_eq;

    #[test]
    fn skim_milk_freezes_where_it_should() {
        // 9 % solids-non-fat, 4.8 % of it lactose; milk freezes near -0.53 °C, at 1.86 K kg/mol an osmolality of 0.285 mol/kg of water.
        let parts = [
            (Constituent::Water, 0.91),
            (Constituent::Lactose, 0.048),
            (Constituent::MilkProtein, 0.0345),
            (Constituent::MilkSalts, 0.0075),
        ];
        let milk = Composition::new(parts.map(|(constituent, part)| (constituent, MassFraction::from_base(part).unwrap()))).unwrap();
        let osmoles = minor_osmoles(&milk).map(|(_, moles)| moles).sum::<f64>() + 48.0 / 342.3;
        assert_relative_eq!(osmoles / 0.91, 0.285, max_relative = 0.1);
    }
}
