//! What is known of every quantity of a part, and what of it is not as it was.

use super::{Assessed, Estimate, Quantity, QuantitySet};

/// What is known of every quantity. Taking all of it back costs nothing, and what is put again as it stood has not changed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Values {
    /// Of a quantity that is absent now, what was known last.
    places: [Assessed; Quantity::COUNT],
    /// The quantities that are not absent.
    present: QuantitySet,
    /// Those that were not when it was last settled.
    before: QuantitySet,
    /// Those of them put otherwise than they stood then.
    changed: QuantitySet,
}

impl Values {
    /// Nothing is known.
    pub(super) const NONE: Self = Self {
        places: [Assessed::Absent; Quantity::COUNT],
        present: QuantitySet::of_none(),
        before: QuantitySet::of_none(),
        changed: QuantitySet::of_none(),
    };

    /// The quantities that are not absent.
    #[inline]
    pub(super) const fn present(&self) -> QuantitySet {
        self.present
    }

    #[inline]
    pub(super) fn look(&self, quantity: Quantity) -> &Assessed {
        self.places.get(quantity as usize).filter(|_| self.present.holds(quantity)).unwrap_or(&Assessed::Absent)
    }

    /// The estimate, if known: what most that is looked at is.
    #[inline(always)]
    pub(super) fn known(&self, quantity: Quantity) -> Option<&Estimate> {
        match self.places.get(quantity as usize)? {
            Assessed::Known(estimate) if self.present.holds(quantity) => Some(estimate),
            _ => None,
        }
    }

    #[inline(always)]
    pub(super) fn put(&mut self, quantity: Quantity, assessed: Assessed) {
        // Most quantities are told where this is called, and their sets with them.
        self.put_at(quantity as usize, QuantitySet::of(quantity), assessed);
    }

    fn put_at(&mut self, place: usize, one: QuantitySet, assessed: Assessed) {
        let Some(place) = self.places.get_mut(place) else { return };
        if matches!(assessed, Assessed::Absent) {
            self.present = self.present.without(one);
            return;
        }
        if self.before.meets(one) && *place != assessed {
            self.changed = self.changed.union(one);
        }
        *place = assessed;
        self.present = self.present.union(one);
    }

    /// Takes back what is known of some quantities.
    #[inline]
    pub(super) const fn forget(&mut self, quantities: QuantitySet) {
        self.present = self.present.without(quantities);
    }

    /// Forgets what stood before as well: whatever is put from now on is new.
    #[inline]
    pub(super) const fn start(&mut self) {
        self.before = QuantitySet::of_none();
    }

    /// Whether one is as it was when it was last settled.
    pub(super) const fn is_as_before(&self, quantity: Quantity) -> bool {
        self.present.holds(quantity) == self.before.holds(quantity) && !self.changed.holds(quantity)
    }

    /// What is not as it was when this was last asked.
    pub(super) const fn settle(&mut self) -> QuantitySet {
        let changed = self.changed.union(self.before.either(self.present));
        (self.before, self.changed) = (self.present, QuantitySet::of_none());
        changed
    }
}

impl PartialEq for Values {
    fn eq(&self, other: &Self) -> bool {
        self.present == other.present && self.present.iter().all(|quantity| self.look(quantity) == other.look(quantity))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(value: f64) -> Values {
        let mut values = Values::NONE;
        values.put(Quantity::Water, Assessed::declared(value));
        values
    }

    #[test]
    fn what_is_put_again_as_it_stood_has_not_changed() {
        let water = QuantitySet::of(Quantity::Water);
        let mut values = one(0.2);
        assert_eq!((values.settle(), values.settle()), (water, QuantitySet::default()));
        values.forget(water);
        values.put(Quantity::Water, Assessed::declared(0.2));
        assert_eq!(values.settle(), QuantitySet::default());
        values.forget(water);
        values.put(Quantity::Water, Assessed::declared(0.3));
        assert!(!values.is_as_before(Quantity::Water) && values.is_as_before(Quantity::Fat));
        assert_eq!(values.settle(), water);
        assert!(values.is_as_before(Quantity::Water));
        // Taken back and not put again.
        values.forget(water);
        assert_eq!((values.settle(), *values.look(Quantity::Water)), (water, Assessed::Absent));
        // What lies there still was known before the last time.
        values.put(Quantity::Water, Assessed::declared(0.3));
        assert_eq!(values.settle(), water);
        values.start();
        values.put(Quantity::Water, Assessed::declared(0.3));
        assert_eq!(values.settle(), water);
    }

    #[test]
    fn what_is_absent_is_so_however_it_came_about() {
        let mut values = one(0.2);
        assert_ne!(values, Values::NONE);
        values.put(Quantity::Water, Assessed::Absent);
        assert_eq!((values, values.present()), (Values::NONE, QuantitySet::default()));
        values.put(Quantity::Water, Assessed::declared(0.3));
        assert_ne!(values, one(0.2));
        assert_eq!(values, one(0.3));
    }
}
