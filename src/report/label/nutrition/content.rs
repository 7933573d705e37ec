//! What a piece holds of each nutrient, from its composition.

use super::super::makeup::Makeup;
use crate::matter::{Composition, Constituent, Ingredient, Role};
use crate::units::{Band, Checked, MassFraction};

/// Saturated fatty acids of a fat, over its weight (USDA SR28: NDB 04501 cocoa butter, NDB 01003 butter oil, NDB 04047 coconut oil and
/// 04513 palm kernel oil).
const SATURATES: [(Constituent, Band<f64>); 3] = [
    (Constituent::CocoaButter, Band { value: 0.597, low: 0.597, high: 0.62 }),
    (Constituent::MilkFat, Band { value: 0.6225, low: 0.57, high: 0.68 }),
    (Constituent::LauricFat, Band { value: 0.824, low: 0.815, high: 0.833 }),
];
/// Of fat whose kind does not tell, a piece may hold this much before its saturates are unknown: the oil of a lecithin, a little PGPR. What
/// there is of it counts with the saturates of lecithin (USDA SR28, NDB 04531) and a band of nothing to all.
const UNTOLD_FAT_AT_MOST: f64 = 0.01;
const UNTOLD_SATURATES: f64 = 0.15;
/// Sodium of common salt, by molar masses.
const SODIUM_OF_SALT: f64 = 22.990 / 58.443;

/// What fat-free cocoa holds of a nutrient, over its weight: mean and extremes of cocoa mass, of natural cocoa powder with 14 and 24 % fat, and
/// of dark chocolate (USDA SR28: NDB 19078, 19165, 19859, 19904). The rest is ash.
const COCOA_PROTEIN: Band<f64> = Band { value: 0.258, low: 0.234, high: 0.315 };
const COCOA_FIBRE: Band<f64> = Band { value: 0.394, low: 0.341, high: 0.454 };
const COCOA_STARCH: Band<f64> = Band { value: 0.275, low: 0.235, high: 0.344 };

/// An amount that some ingredient may lack the figure for.
pub(super) enum Told {
    Known(Band<f64>),
    Unknown(Vec<String>),
}

/// Shares of the finished piece, or grams of what is declared.
pub(super) struct Content {
    pub fat: Band<f64>,
    pub saturates: Told,
    pub sugars: Band<f64>,
    pub polyols: Band<f64>,
    /// Starch and longer saccharides.
    pub starch: Band<f64>,
    pub fibre: Band<f64>,
    pub protein: Band<f64>,
    pub ethanol: Band<f64>,
    pub acids: Band<f64>,
    pub unidentified: Band<f64>,
    pub sodium: Told,
    pub added_sugars: Told,
    pub trans_fat: Told,
    pub cholesterol: Told,
    pub vitamin_d: Told,
    pub calcium: Told,
    pub iron: Told,
    pub potassium: Told,
}

const NOTHING: Band<f64> = Band { value: 0.0, low: 0.0, high: 0.0 };

impl Content {
    const NONE: Self = Self {
        fat: NOTHING,
        saturates: Told::Known(NOTHING),
        sugars: NOTHING,
        polyols: NOTHING,
        starch: NOTHING,
        fibre: NOTHING,
        protein: NOTHING,
        ethanol: NOTHING,
        acids: NOTHING,
        unidentified: NOTHING,
        sodium: Told::Known(NOTHING),
        added_sugars: Told::Known(NOTHING),
        trans_fat: Told::Known(NOTHING),
        cholesterol: Told::Known(NOTHING),
        vitamin_d: Told::Known(NOTHING),
        calcium: Told::Known(NOTHING),
        iron: Told::Known(NOTHING),
        potassium: Told::Known(NOTHING),
    };

    /// What the finished piece holds, as shares of it.
    pub fn of(makeup: &Makeup) -> Self {
        let mut content = Self { saturates: saturates(makeup), ..Self::NONE };
        for used in &makeup.uses {
            content.add(&used.ingredient, used.mixed / makeup.finished);
        }
        content
    }

    fn add(&mut self, ingredient: &Ingredient, share: f64) {
        for (constituent, fraction) in ingredient.composition.parts() {
            self.constituent(constituent, share * fraction, ingredient.fibrous);
        }
        let title = &ingredient.title;
        let minor = |stated: Option<MassFraction>| stated.map(|fraction| Band::exact(fraction.base()));
        let figures = &ingredient.figures;
        let pure = is_pure(&ingredient.composition).then_some(NOTHING);
        self.sodium.add(sodium(ingredient).map(Band::exact), share, || format!("the sodium of {title} (sodium)"));
        self.added_sugars
            .add(ingredient.added_sugars(), share, || format!("whether the sugars of {title} are added (sugars or added_sugars)"));
        self.trans_fat.add(ingredient.trans_fat().map(Band::exact), share, || format!("the trans fat of {title} (trans_fat)"));
        self.cholesterol.add(ingredient.cholesterol().map(Band::exact), share, || format!("the cholesterol of {title} (cholesterol)"));
        self.vitamin_d.add(minor(figures.vitamin_d).or(pure), share, || format!("the vitamin D of {title} (vitamin_d)"));
        self.calcium.add(minor(figures.calcium).or(pure), share, || format!("the calcium of {title} (calcium)"));
        self.iron.add(minor(figures.iron).or(pure), share, || format!("the iron of {title} (iron)"));
        self.potassium.add(minor(figures.potassium).or(pure), share, || format!("the potassium of {title} (potassium)"));
    }

    fn constituent(&mut self, constituent: Constituent, amount: f64, fibrous: bool) {
        let exact = Band::exact(amount);
        match (constituent, constituent.role()) {
            (Constituent::FatFreeCocoa, _) => {
                self.protein = plus(self.protein, COCOA_PROTEIN.map(|part| amount * part));
                self.fibre = plus(self.fibre, COCOA_FIBRE.map(|part| amount * part));
                self.starch = plus(self.starch, COCOA_STARCH.map(|part| amount * part));
            }
            (Constituent::MilkProtein | Constituent::Protein | Constituent::Gelatine, _) => self.protein = plus(self.protein, exact),
            (Constituent::Acid | Constituent::LacticAcid, _) => self.acids = plus(self.acids, exact),
            // Nobody accounted for it: carbohydrate by difference, most likely.
            (Constituent::Unidentified, _) => {
                self.unidentified = plus(self.unidentified, Band { value: amount, low: 0.0, high: amount });
            }
            (_, Role::Saccharide) if fibrous => self.fibre = plus(self.fibre, exact),
            (_, Role::Saccharide) | (Constituent::Starch, _) => self.starch = plus(self.starch, exact),
            (Constituent::Fibre, _) | (_, Role::Gum) => self.fibre = plus(self.fibre, exact),
            (_, Role::Fat | Role::Emulsifier) => self.fat = plus(self.fat, exact),
            (_, Role::Sugar) => self.sugars = plus(self.sugars, exact),
            (_, Role::Polyol) => self.polyols = plus(self.polyols, exact),
            (_, Role::Ethanol) => self.ethanol = plus(self.ethanol, exact),
            (_, Role::Water | Role::Electrolyte | Role::Inert | Role::SorbingSolid) => {}
        }
    }

    /// Carbohydrate as the EU has it: polyols with it, fibre and acids apart.
    pub fn carbohydrate(&self) -> Band<f64> {
        [self.polyols, self.starch, self.unidentified].into_iter().fold(self.sugars, plus)
    }

    /// Carbohydrate by difference: all that is not water, protein, fat, ash or ethanol.
    pub fn carbohydrate_by_difference(&self) -> Band<f64> {
        // What a kind of cocoa has more of in fibre it has less of in starch, so the two together are known better than each.
        [self.fibre, self.acids].into_iter().fold(self.carbohydrate(), plus)
    }

    /// So much of it.
    pub fn scaled(self, grams: f64) -> Self {
        let scaled = |band: Band<f64>| band.map(|share| grams * share);
        Self {
            fat: scaled(self.fat),
            saturates: self.saturates.map(scaled),
            sugars: scaled(self.sugars),
            polyols: scaled(self.polyols),
            starch: scaled(self.starch),
            fibre: scaled(self.fibre),
            protein: scaled(self.protein),
            ethanol: scaled(self.ethanol),
            acids: scaled(self.acids),
            unidentified: scaled(self.unidentified),
            sodium: self.sodium.map(scaled),
            added_sugars: self.added_sugars.map(scaled),
            trans_fat: self.trans_fat.map(scaled),
            cholesterol: self.cholesterol.map(scaled),
            vitamin_d: self.vitamin_d.map(scaled),
            calcium: self.calcium.map(scaled),
            iron: self.iron.map(scaled),
            potassium: self.potassium.map(scaled),
        }
    }
}

impl Told {
    fn add(&mut self, part: Option<Band<f64>>, share: f64, lacks: impl FnOnce() -> String) {
        match (&mut *self, part) {
            (Self::Known(sum), Some(part)) => *sum = plus(*sum, part.map(|part| share * part)),
            (Self::Known(_), None) => *self = Self::Unknown(vec![lacks()]),
            (Self::Unknown(all), None) => all.push(lacks()),
            (Self::Unknown(_), Some(_)) => {}
        }
    }

    fn map(self, of: impl Fn(Band<f64>) -> Band<f64>) -> Self {
        match self {
            Self::Known(band) => Self::Known(of(band)),
            Self::Unknown(lacks) => Self::Unknown(lacks),
        }
    }
}

/// The saturates of a piece: of each ingredient its own figure, or what follows from the kinds of its fat. Where too much of the fat tells
/// nothing, they are unknown.
fn saturates(makeup: &Makeup) -> Told {
    let (mut told, mut untold, mut lacking) = (NOTHING, 0.0, Vec::new());
    for used in &makeup.uses {
        let (ingredient, share) = (&used.ingredient, used.mixed / makeup.finished);
        if let Some(own) = ingredient.figures.saturates {
            told = plus(told, Band::exact(share * own.base()));
            continue;
        }
        let composition = &ingredient.composition;
        let mut rest = composition.fat() + composition.of_role(Role::Emulsifier);
        for (fat, saturated) in SATURATES {
            told = plus(told, saturated.map(|saturated| share * saturated * composition.of(fat)));
            rest -= composition.of(fat);
        }
        if rest > 1e-9 {
            untold += share * rest;
            lacking.push(format!("the saturates of {} (saturates)", ingredient.title));
        }
    }
    if untold > UNTOLD_FAT_AT_MOST {
        return Told::Unknown(lacking);
    }
    Told::Known(plus(told, Band { value: UNTOLD_SATURATES * untold, low: 0.0, high: untold }))
}

/// The sodium of an ingredient, over its weight: its own figure, or none where nothing in it can hold any but salt.
fn sodium(ingredient: &Ingredient) -> Option<f64> {
    let own = ingredient.figures.sodium.map(Checked::base);
    own.or_else(|| holds_no_other_sodium(&ingredient.composition).then(|| SODIUM_OF_SALT * ingredient.composition.of(Constituent::Salt)))
}

/// Whether all there is is water, ethanol and plain sugars or polyols: nothing that brings vitamins or minerals. Water counts as free of them.
fn is_pure(composition: &Composition) -> bool {
    composition.parts().all(|(constituent, _)| {
        matches!(constituent.role(), Role::Water | Role::Ethanol | Role::Sugar | Role::Saccharide | Role::Polyol)
            && !matches!(constituent, Constituent::UnsplitSugars | Constituent::UnsplitMilkSugars)
    })
}

/// Whether all there is is water, spirit, sugars, polyols, acids, fat or salt.
fn holds_no_other_sodium(composition: &Composition) -> bool {
    composition.parts().all(|(constituent, _)| match constituent.role() {
        Role::Water | Role::Ethanol | Role::Sugar | Role::Saccharide | Role::Polyol | Role::Fat | Role::Emulsifier => true,
        Role::Electrolyte => matches!(constituent, Constituent::Acid | Constituent::LacticAcid | Constituent::Salt),
        Role::SorbingSolid | Role::Gum | Role::Inert => false,
    })
}

fn plus(one: Band<f64>, two: Band<f64>) -> Band<f64> {
    Band { value: one.value + two.value, low: one.low + two.low, high: one.high + two.high }
}
