//! Isotherms of one's own beside those that ship.

use super::{Solute, Sorbent};
use crate::matter::Constituent;

/// The isotherms a balance goes by: those that ship, [`Solute`] and [`Sorbent`], unless a constituent is given one of its own.
///
/// A constituent that ships without any takes up water as soon as it is given one: so a substance that is not in the list of constituents can
/// be booked as one that is not used otherwise.
///
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::{Isotherms, Solute, water_activity, water_activity_by};
/// use cordial::units::{Checked, MassFraction, Temperature};
/// let half = MassFraction::from_base(0.5)?;
/// let syrup = Composition::new([(Constituent::Water, half), (Constituent::Sorbitol, half)])?;
/// let room = Temperature::from_base(25.0)?;
/// // A laboratory's own constant of sorbitol.
/// let shipped = Solute::of(Constituent::Sorbitol).ok_or("sorbitol dissolves")?;
/// let own = Isotherms::shipped().with(Solute { constants: [1.85, 0.0, 0.0], source: "bench book, page 12", ..*shipped });
/// let [by_own, by_shipped] = [water_activity_by(&own, &syrup, None, room)?, water_activity(&syrup, None, room)?];
/// assert!(by_own.activity.value.base() < by_shipped.activity.value.base());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Isotherms {
    solutes: Vec<Solute>,
    sorbents: Vec<Sorbent>,
}

impl Isotherms {
    /// Those that ship, and no others.
    #[must_use]
    pub const fn shipped() -> Self {
        Self { solutes: Vec::new(), sorbents: Vec::new() }
    }

    /// With this one for what its constituent dissolves.
    #[must_use]
    pub fn with(mut self, solute: Solute) -> Self {
        self.solutes.retain(|own| own.constituent != solute.constituent);
        self.sorbents.retain(|own| own.constituent != solute.constituent);
        self.solutes.push(solute);
        self
    }

    /// With this one for the water that its constituent takes up undissolved.
    #[must_use]
    pub fn with_sorbent(mut self, sorbent: Sorbent) -> Self {
        self.solutes.retain(|own| own.constituent != sorbent.constituent);
        self.sorbents.retain(|own| own.constituent != sorbent.constituent);
        self.sorbents.push(sorbent);
        self
    }

    /// Every solute, with its place among those that ship where it is one of them.
    pub(super) fn solutes(&self) -> impl Iterator<Item = (usize, &Solute)> {
        let shipped = Solute::ALL.iter().enumerate().filter(|(_, solute)| !self.replaces(solute.constituent));
        shipped.chain(self.solutes.iter().map(|solute| (usize::MAX, solute)))
    }

    /// Every sorbing solid.
    pub(super) fn sorbents(&self) -> impl Iterator<Item = &Sorbent> {
        Sorbent::ALL.iter().filter(|sorbent| !self.replaces(sorbent.constituent)).chain(&self.sorbents)
    }

    fn replaces(&self, constituent: Constituent) -> bool {
        self.solutes.iter().any(|own| own.constituent == constituent) || self.sorbents.iter().any(|own| own.constituent == constituent)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::super::{water_activity, water_activity_by};
    use super::*;
    use crate::matter::Composition;
    use crate::units::{Checked, Temperature};
    use approx::assert_abs_diff_eq;

    fn activity(isotherms: Option<&Isotherms>, parts: &[(Constituent, f64)]) -> f64 {
        let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
        let composition = Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass))).unwrap();
        let room = Temperature::from_base(25.0).unwrap();
        let balance = match isotherms {
            Some(isotherms) => water_activity_by(isotherms, &composition, None, room),
            None => water_activity(&composition, None, room),
        };
        balance.unwrap().activity.value.base()
    }

    const GANACHE: &[(Constituent, f64)] =
        &[(Constituent::Water, 0.2), (Constituent::Sucrose, 0.3), (Constituent::FatFreeCocoa, 0.12), (Constituent::MilkFat, 0.3)];

    /// Sucrose beside its own crystals included: the saturation follows the isotherm that is given.
    #[test]
    fn a_copy_of_what_ships_changes_nothing() {
        let copies = Isotherms::shipped()
            .with(*Solute::of(Constituent::Sucrose).unwrap())
            .with_sorbent(*Sorbent::of(Constituent::FatFreeCocoa).unwrap());
        for parts in [GANACHE, &[(Constituent::Water, 0.2), (Constituent::Sucrose, 0.8)]] {
            assert_abs_diff_eq!(activity(Some(&copies), parts), activity(None, parts), epsilon = 1e-9);
        }
    }

    #[test]
    fn one_more_leaves_the_others_as_they_are() {
        let (sucrose, cocoa) = (*Solute::of(Constituent::Sucrose).unwrap(), *Sorbent::of(Constituent::FatFreeCocoa).unwrap());
        let glucose = *Solute::of(Constituent::Glucose).unwrap();
        let own = Isotherms::shipped().with(sucrose).with_sorbent(cocoa).with(glucose);
        assert_eq!((own.solutes.len(), own.sorbents.len()), (2, 1));
        // The same constituent cannot both dissolve and take up water undissolved.
        let moved = own.with_sorbent(Sorbent { constituent: Constituent::Sucrose, ..cocoa });
        assert_eq!((moved.solutes.len(), moved.sorbents.len()), (1, 2));
        assert_eq!(moved.with(sucrose).sorbents.len(), 1);
    }

    #[test]
    fn what_holds_more_water_lowers_it() {
        let shipped = Sorbent::of(Constituent::FatFreeCocoa).unwrap();
        let thirsty = Isotherms::shipped().with_sorbent(Sorbent { monolayer: 2.0 * shipped.monolayer, ..*shipped });
        assert!(activity(Some(&thirsty), GANACHE) < activity(None, GANACHE) - 0.01);
    }

    /// Fructose booked as inert matter with the isotherm of fructose is fructose.
    #[test]
    fn a_substance_of_ones_own_dissolves() {
        let fructose = Solute::of(Constituent::Fructose).unwrap();
        let own = Isotherms::shipped().with(Solute { constituent: Constituent::Inert, ..*fructose });
        let booked = [(Constituent::Water, 0.4), (Constituent::Inert, 0.6)];
        assert_abs_diff_eq!(activity(None, &booked), 1.0, epsilon = 1e-9);
        let meant = [(Constituent::Water, 0.4), (Constituent::Fructose, 0.6)];
        assert_abs_diff_eq!(activity(Some(&own), &booked), activity(None, &meant), epsilon = 1e-9);
    }

    #[test]
    fn the_last_isotherm_given_counts() {
        let sucrose = Solute::of(Constituent::Sucrose).unwrap();
        let odd = Solute { constants: [0.0; 3], ..*sucrose };
        let restored = Isotherms::shipped().with(odd).with(*sucrose);
        assert_abs_diff_eq!(activity(Some(&restored), GANACHE), activity(None, GANACHE), epsilon = 1e-9);
    }
}
