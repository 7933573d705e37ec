//! The closed list of assessed quantities: key in the report, unit at the bench, name in sentences, and what to give when it lacks.

use crate::units::{Dimension, Unit};

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident $key:literal $unit:ident $words:literal $ask:literal;)+) => {
        /// A quantity that is assessed on a part of a piece.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Quantity {$($(#[$doc])* $name,)+}

        impl Quantity {
            /// Every quantity.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            /// The key in reports.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {$(Self::$name => $key,)+}
            }

            /// The unit it is shown in.
            #[must_use]
            pub const fn unit(self) -> Unit {
                match self {$(Self::$name => Unit::$unit,)+}
            }

            /// The name in sentences.
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self {$(Self::$name => $words,)+}
            }

            /// What to give in the document when it lacks.
            #[must_use]
            pub const fn ask(self) -> &'static str {
                match self {$(Self::$name => $ask,)+}
            }
        }
    };
}

quantities! {
    // The chocolate of a shell or a cap.
    /// Lecithin in a chocolate, declared and added, as fluid of 62 % acetone-insoluble matter.
    Lecithin "lecithin" Percent "total lecithin" "the emulsifier of the chocolate";
    /// PGPR in a chocolate, declared and added.
    Pgpr "pgpr" Percent "total PGPR" "the emulsifier of the chocolate";
    /// Emulsifier dosed in a form that is not made for fat.
    UnfitEmulsifier "unfit_emulsifier" Percent "emulsifier in a form not made for fat" "the form of each emulsifier";
    /// Water carried into a chocolate by what is stirred into it.
    AddedWater "added_water" Percent "water stirred into the chocolate" "the composition of what is stirred in";
    /// Fat of a chocolate with all that is stirred in.
    ChocolateFat "fat" Percent "total fat" "the chocolate";
    /// Cocoa butter stirred into a chocolate.
    CocoaButterAdded "cocoa_butter_added" Percent "cocoa butter added" "the composition of what is stirred in";
    /// Fat that is liquid at room temperature, of the chocolate's weight.
    OilOfChocolate "oil" Percent "liquid oil in the chocolate" "the chocolate";
    /// Milk fat as a share of all fat of a chocolate.
    MilkFatOfFat "milk_fat_of_fat" Percent "milk fat in the fat of the chocolate" "the chocolate";
    /// Lauric fat as a share of all fat of a chocolate.
    LauricOfFat "lauric_of_fat" Percent "lauric fat in the fat of the chocolate" "the chocolate";
    /// Casson yield value of a chocolate as it is cast: with its emulsifiers, its temper and what is stirred in.
    ChocolateYieldValue "yield_value" Pascal "Casson yield value as cast" "the chocolate's yield value";
    /// Casson plastic viscosity of a chocolate as it is cast.
    PlasticViscosity "plastic_viscosity" PascalSecond "Casson plastic viscosity as cast" "the chocolate's plastic viscosity";
    /// Temperature at which a chocolate is worked.
    WorkingTemperature "working_temperature" Celsius "working temperature of the chocolate" "the chocolate's temperature (workshop, chocolate_temperature)";
    /// Dose of a seed, of the chocolate's weight.
    SeedDose "seed_dose" Percent "seed" "the seed's dose";
    /// Temperature of the chocolate when a seed is added.
    SeedTemperature "seed_temperature" Celsius "temperature when the seed goes in" "the chocolate's temperature when the seed goes in (seed, at)";
    /// The smallest dose of emulsifier for the batch, in divisions of the scale.
    DoseInDivisions "dose_in_divisions" One "smallest emulsifier dose in divisions of the scale" "the scale's division and the number of moulds (workshop, scale_division; batch, moulds)";
    /// Density of a chocolate as it is poured.
    ChocolateDensity "density" KilogramPerCubicMeter "density of the liquid chocolate" "the chocolate";
    /// One if a chocolate was tempered, zero if not.
    Tempered "tempered" One "temper" "whether the chocolate is tempered (temper)";

    // The shell.
    /// Thickness of the wall.
    WallThickness "thickness" Millimeter "wall thickness" "the shell's thickness";
    /// Wall that draining leaves, as predicted.
    PredictedWall "predicted_thickness" Millimeter "wall that draining leaves" "the drain time and the mould";
    /// The same over the wall that is wanted.
    WallDrained "drained_over_wanted" One "drained wall over the wall wanted" "the drain time, the thickness wanted and the mould";
    /// Temperature of the mould at casting.
    MouldTemperature "mould_temperature" Celsius "mould temperature" "the mould's temperature (workshop, mould_temperature)";
    /// How much colder the mould is than the chocolate.
    MouldBelowChocolate "mould_below_chocolate" KelvinDifference "mould below the chocolate by" "the temperatures of mould and chocolate (workshop)";
    /// Mass of the shell.
    ShellMass "mass" Gram "mass" "the shell's thickness and the mould";
    /// How often the shell is cast.
    Casts "casts" One "number of casts" "how often the shell is cast (casts)";

    // A layer.
    /// Mass of a layer.
    LayerMass "mass" Gram "mass" "how much of the layer is poured (fill_to, mass or volume)";
    /// Volume of a layer.
    LayerVolume "volume" Milliliter "volume" "how much of the layer is poured (fill_to, mass or volume)";
    /// What a filling is made of, as a whole.
    Composition "composition" Percent "composition" "the layer's recipe";
    /// Water.
    Water "water" Percent "water" "the layer's recipe";
    /// Total fat.
    Fat "fat" Percent "total fat" "the layer's recipe";
    /// Sugars and polyols.
    Sugars "sugars" Percent "content of sugars and polyols" "the layer's recipe";
    /// Ethanol by mass.
    Ethanol "ethanol" Percent "ethanol by mass" "the layer's recipe";
    /// Ethanol in the mixture of all water with all ethanol, by volume.
    SpiritStrength "spirit_strength" PercentVolume "ethanol in the water phase" "the layer's recipe";
    /// Cocoa butter.
    CocoaButter "cocoa_butter" Percent "cocoa butter" "the layer's recipe";
    /// Milk fat.
    MilkFat "milk_fat" Percent "milk fat" "the layer's recipe";
    /// Fat that is liquid at room temperature.
    FreeOil "free_oil" Percent "liquid oil" "the layer's recipe";
    /// Fat-free cocoa.
    FatFreeCocoa "fat_free_cocoa" Percent "fat-free cocoa" "the layer's recipe";
    /// Dissolved solids over dissolved solids and water.
    DissolvedSolids "dissolved_solids" Brix "dissolved solids" "the layer's recipe";
    /// Sugars other than sucrose and those of milk, with the body of syrups, over sucrose.
    DoctorRatio "doctor_ratio" One "syrup solids per sugar" "the layer's recipe";
    /// The most of one humectant: glucose syrup, invert sugar, honey, a polyol.
    LargestHumectant "largest_humectant" Percent "the most of one humectant" "the layer's recipe";
    /// All humectants together.
    Humectants "humectants" Percent "humectants in all" "the layer's recipe";
    /// Spirits and liqueurs.
    SpiritShare "spirit_share" Percent "spirits and liqueurs" "the layer's recipe";
    /// Chocolate over cream.
    ChocolateToCream "chocolate_to_cream" One "chocolate per cream" "the layer's recipe";
    /// Chocolate over cream and spirit together.
    ChocolateToLiquid "chocolate_to_liquid" One "chocolate per cream and spirit" "the layer's recipe";
    /// One if the gum was wetted before any spirit, zero if not.
    HydratedFirst "hydrated_first" One "gum wetted first" "whether the gum is wetted before the spirit goes in (hydrated_first)";
    /// Mass of sucrose over the most that stays in solution.
    SucroseSupersaturation "sucrose_supersaturation" One "sucrose over what stays in solution" "how much sucrose dissolves beside strong spirit, or far from room temperature";
    /// Ice in a filling that is stored below zero.
    Ice "ice" Percent "ice in the filling as it is stored" "the layer's recipe";
    /// Ethanol in a filling whose water activity was measured.
    EthanolAtMeter "ethanol_at_meter" Percent "ethanol where the water activity was measured" "the layer's recipe";
    /// Water activity, as a humidity, less the humidity of the workshop's air.
    DryingGap "drying_gap" PercentHumidity "humidity that the filling keeps, above that of the air, by" "the layer's recipe and the air's humidity (workshop, air_humidity)";
    /// Difference of water activity to the layer above.
    ActivityGap "activity_gap" One "difference of water activity to the layer above" "the recipes of both layers";
    /// Water activity of a crisp layer when it has come to rest with its neighbours.
    ActivityAtRest "activity_at_rest" One "water activity at rest with its neighbours" "recipes and amounts of the crisp and its neighbours, the crisp's measured water activity";
    /// Promised keeping time over what fillings of this activity keep.
    KeepOverUsual "keep_over_usual" One "promised keeping time over the usual" "how long it is to keep (keep), and the layer's recipe";
    /// How long fillings of this activity usually keep.
    UsualKeep "usual_keep" Day "usual keeping time" "the layer's recipe, or a measured water activity";
    /// One if the Food Code wants it kept cold, zero if not.
    NeedsCold "needs_cold" One "time or temperature control" "the layer's recipe and a measured pH";
    /// Mass of fat over mass of water.
    FatToWater "fat_to_water" One "fat per water" "the layer's recipe";
    /// Water activity.
    WaterActivity "water_activity" One "water activity" "the layer's recipe, or a measured water activity";
    /// Water activity with all ethanol taken out.
    ActivityWithoutEthanol "water_activity_without_ethanol" One "water activity with its ethanol left out" "the layer's recipe";
    /// Sorbic acid, that of its potassium salt included.
    SorbicAcid "sorbic_acid" MilligramPerKilogram "sorbic acid" "the layer's recipe";
    /// pH.
    Ph "ph" AcidityUnit "pH" "a measured pH";
    /// Density of a filling.
    Density "density" KilogramPerCubicMeter "density" "the layer's recipe, or a measured density";
    /// Density of a filling over that of the liquid cap.
    DensityRatio "density_ratio" One "density over that of the liquid cap" "the layer's recipe and the cap's chocolate";
    /// Yield value of a filling.
    YieldValue "yield_value" Pascal "yield value" "a measured yield value, or how thick the layer stands (thickness)";
    /// Pouring temperature.
    PouringTemperature "temperature" Celsius "pouring temperature" "the temperature the layer is poured at";
    /// Share of the shell's crystals that the filling melts as it is poured.
    ShellMelted "shell_melted" Percent "crystals of the shell that melt" "the pouring temperature, the layer's recipe and the shell";
    /// Yield value that carries a cap poured gently.
    YieldNeeded "yield_needed" Pascal "yield value that carries the cap" "the mould, the headroom and the cap's chocolate";
    /// Yield value that carries a cap however it is poured.
    YieldNeededAnyPour "yield_needed_any_pour" Pascal "yield value that carries the cap however it is poured" "the mould, the headroom and the cap's chocolate";
    /// How well the top layer carries the cap, poured gently: at least one holds.
    CapSupport "cap_support" One "cap support" "the mould, the headroom and the cap's chocolate";
    /// How well the top layer carries the cap, however it is poured: at least one holds.
    CapSupportAnyPour "cap_support_any_pour" One "cap support under any pour" "the mould, the headroom and the cap's chocolate";

    // A part, before the law.
    /// All additives that the law names, in a chocolate or a filling.
    Additives "additives" MilligramPerKilogram "additives" "the emulsifiers of the chocolate or the layer's recipe";
    /// Cocoa butter and fat-free cocoa of a chocolate less other edible matter.
    NetCocoa "net_cocoa" Percent "dry cocoa solids" "the chocolate";
    /// Cocoa butter of a chocolate less other edible matter.
    NetCocoaButter "net_cocoa_butter" Percent "cocoa butter" "the chocolate";
    /// Fat-free cocoa of a chocolate less other edible matter.
    NetFatFreeCocoa "net_fat_free_cocoa" Percent "dry fat-free cocoa" "the chocolate";
    /// Milk solids with their fat, of a chocolate less other edible matter.
    NetMilkSolids "net_milk_solids" Percent "dry milk solids" "the chocolate";
    /// Milk fat of a chocolate less other edible matter.
    NetMilkFat "net_milk_fat" Percent "milk fat" "the chocolate";
    /// Cocoa butter and milk fat of a chocolate less other edible matter.
    NetFat "net_fat" Percent "cocoa butter and milk fat" "the chocolate";
    /// Vegetable fat other than cocoa butter of a chocolate less other edible matter.
    NetVegetableFat "net_vegetable_fat" Percent "vegetable fat other than cocoa butter" "the chocolate";
    /// Sugars of a chocolate less other edible matter, those of milk left out.
    NetSweeteners "net_sweeteners" Percent "sugars added as sweeteners" "the chocolate";
    /// Chocolate liquor as the US reckons it, of a chocolate less other edible matter.
    Liquor "liquor" Percent "chocolate liquor as the US reckons it" "how much of the cocoa is cocoa powder (chocolate, cocoa_powder = \"0 %\" where the list of ingredients names none)";
    /// Whey products of a chocolate.
    Whey "whey" Percent "whey products" "how much of the chocolate is whey (chocolate, whey = \"0 %\" where the list of ingredients names none)";
    /// What is a colour or is coloured, of the whole of a chocolate.
    Colours "colours" Percent "colours, and what is coloured" "what the chocolate is made of (contains, each colour with class = \"colour\")";
    /// Milk solids with their fat, of the whole of a chocolate.
    MilkOfWhole "milk_of_whole" Percent "dry milk solids of the whole" "the chocolate";
    /// Other edible matter in a chocolate, of the whole.
    OtherEdible "other_edible" Percent "other edible matter" "the chocolate";
    /// Hazelnut stirred into a chocolate, of the whole.
    Hazelnut "hazelnut" Percent "hazelnut" "the chocolate";
    /// Nuts stirred into a chocolate, of the whole.
    Nuts "nuts" Percent "nuts" "the chocolate";

    // The cap.
    /// Thickness of the cap that is wanted.
    CapThickness "thickness" Millimeter "cap thickness" "the cap's thickness";
    /// Thickness of the cap that the headroom allows.
    CapRoom "room" Millimeter "cap that the headroom allows" "how high the filling stands";
    /// Mass of the cap.
    CapMass "mass" Gram "mass" "how high the filling stands";
    /// How many coats it is poured in.
    Coats "coats" One "number of coats" "the cap's coats";

    // The piece.
    /// Mass of the finished piece.
    PieceMass "mass" Gram "mass" "the mould, the shell and the layers";
    /// Volume of the cavity.
    CavityVolume "cavity_volume" Milliliter "volume of the cavity" "the mould";
    /// One if the walls of the mould are round, zero if it has corners.
    RoundWalls "round_walls" One "round walls" "the shape of the mould";
    /// Volume inside the shell, up to the rim.
    InnerVolume "inner_volume" Milliliter "room inside the shell" "the mould and the shell's thickness";
    /// Diameter of the circle with the area of the opening inside the shell.
    Opening "opening" Millimeter "opening inside the shell" "the mould and the shell's thickness";
    /// What is poured by mass or volume, over the volume inside the shell.
    FillShare "fill_share" Percent "share of the inside that the layers fill" "how much of each layer is poured";
    /// Depth left under the rim when the last layer is in.
    Headroom "headroom" Millimeter "headroom" "how much of each layer is poured, the mould and the shell's thickness";
    /// The same as a share of the volume inside the shell.
    HeadroomShare "headroom_share" Percent "headroom by volume" "how much of each layer is poured, the mould and the shell's thickness";
    /// Share of the finished piece that is shell and cap.
    ChocolateShare "chocolate_share" Percent "shell and cap by mass" "the mould, the shell and the layers";
    /// Share of the finished piece that is chocolate, what was melted into its fillings counted in.
    ChocolateInAll "chocolate_in_all" Percent "chocolate, that melted into the filling counted in" "the mould, the shell and the layers' recipes";
    /// Ethanol in a piece.
    EthanolMass "ethanol_mass" Gram "ethanol" "the mould, the shell and the layers' recipes";
    /// Ethanol by mass of the piece.
    EthanolByMass "ethanol_by_mass" Percent "ethanol by mass of the piece" "the mould, the shell and the layers' recipes";
    /// Ethanol by volume of the piece.
    EthanolByVolume "ethanol_by_volume" PercentVolume "ethanol by volume of the piece" "the mould, the shell and the layers' recipes";
    /// Pure alcohol by volume over the mass of the piece.
    PureAlcohol "pure_alcohol" LiterPerHundredKilograms "pure alcohol" "the mould, the shell and the layers' recipes";
    /// Spirits by volume over the mass of the piece.
    SpiritPerMass "spirit_per_mass" LiterPerKilogram "spirits" "the mould, the shell and the layers' recipes";
    /// Strength of the strongest spirit in a recipe.
    StrongestSpirit "strongest_spirit" PercentVolume "strength of the strongest spirit" "the layers' recipes";
    /// Polyols added to the fillings, of the piece.
    AddedPolyols "added_polyols" Percent "added polyols" "the mould, the shell and the layers' recipes";
    /// A row of law for what is asked.
    RowOfLaw "row_of_law" One "row of law" "a limit of this market, which is not held here (`[[law]]` adds one)";
    /// The law of the State where it is sold.
    StateLaw "state_law" One "law of the State" "the law of the State where it is sold (regions)";
    /// How long filled shells rest before they are capped.
    RestBeforeCap "rest_before_cap" Hour "rest before capping" "the rest before capping (workshop, rest_before_cap)";
    /// Temperature at which a ganache is emulsified.
    EmulsifiedAt "emulsified_at" Celsius "emulsifying temperature" "the emulsifying temperature (workshop, emulsified_at)";
    /// Temperature at which capped pieces are cooled.
    CooledAt "cooled_at" Celsius "cooling temperature" "the cooling temperature (workshop, cooled_at)";
    /// How long capped pieces are cooled before they are released.
    CooledFor "cooled_for" Hour "cooling time" "the cooling time (workshop, cooled_for)";
    /// How far pieces, from the cooler or an unwrapped store, are above the dew point of the workshop's air.
    AboveDewPoint "above_dew_point" KelvinDifference "pieces above the dew point by" "the air's temperature and humidity (workshop)";
    /// Temperature of the store.
    StorageTemperature "storage_temperature" Celsius "storage temperature" "the storage temperature (storage, temperature)";
    /// Humidity of the store.
    StorageHumidity "storage_humidity" PercentHumidity "storage humidity" "the storage humidity (storage, humidity)";
    /// Chocolate melted over what fills a mould to the rim.
    MeltPool "melt_pool" One "chocolate melted over a full mould" "how much chocolate is melted (batch, melted) and the mould with its cavities";
    /// One if it is sold at room temperature, zero if not.
    AmbientSale "ambient_sale" One "sale at room temperature" "how it is sold (storage, sale)";
    /// One if it is sold fresh, within days, zero if not.
    FreshSale "fresh_sale" One "sale while fresh" "how it is sold (storage, sale)";
    /// How long it is promised to keep.
    KeepPromised "keep" Day "promised keeping time" "how long it is to keep (keep)";
    /// How many allergens must be declared.
    AllergensToDeclare "allergens_to_declare" One "allergens to declare" "a market whose list of allergens is held here";
    /// One where the list of allergens of every market named is held here.
    AllergenLists "allergen_lists" One "allergen lists of the markets" "markets whose list of allergens is held here";
    /// How many of the markets are judged by a list, or an exemption, that is recalled and was not read.
    RecalledAllergenLists "recalled_allergen_lists" One "markets whose rows are recalled" "the markets (markets)";
    /// One where it is known of every layer what it is made of.
    Ingredients "ingredients" One "layers whose ingredients are known" "the layer's recipe";
    /// How many promised allergens are inside all the same.
    BrokenPromises "broken_promises" One "promised allergens that are inside" "the plant that each lecithin is made from (source)";
}

impl Quantity {
    /// The dimension.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        self.unit().dimension()
    }
}

/// A set of quantities.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct QuantitySet(pub(super) u128);

const _: () = assert!(Quantity::COUNT <= 128, "a quantity has no bit left");

impl QuantitySet {
    /// The set of one.
    #[must_use]
    pub const fn of(quantity: Quantity) -> Self {
        Self(1 << quantity as u32)
    }

    /// The set of several.
    #[must_use]
    pub const fn of_each(quantities: &[Quantity]) -> Self {
        let (mut all, mut rest) = (Self::of_none(), quantities);
        while let [first, others @ ..] = rest {
            (all, rest) = (all.union(Self::of(*first)), others);
        }
        all
    }

    /// Those in either set.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Those that are not in the other set.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Those in one of two sets and not in the other.
    #[must_use]
    pub(super) const fn either(self, other: Self) -> Self {
        Self(self.0 ^ other.0)
    }

    /// Whether the other set holds all of them.
    #[must_use]
    pub const fn is_within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// Whether any of them is in the other set.
    #[must_use]
    pub const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether it holds this one.
    #[must_use]
    pub const fn holds(self, quantity: Quantity) -> bool {
        self.0 & (1 << quantity as u32) != 0
    }

    /// Each of them.
    pub fn iter(self) -> impl Iterator<Item = Quantity> {
        let mut rest = self.0;
        std::iter::from_fn(move || {
            let first = Quantity::ALL.get(rest.trailing_zeros() as usize)?;
            rest &= rest - 1;
            Some(*first)
        })
    }
}

impl FromIterator<Quantity> for QuantitySet {
    fn from_iter<I: IntoIterator<Item = Quantity>>(quantities: I) -> Self {
        quantities.into_iter().fold(Self::default(), |all, quantity| all.union(Self::of(quantity)))
    }
}
