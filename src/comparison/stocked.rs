//! An option that burns from stores: its hours are run once with ample fuel, and the fuel then bought at
//! whatever prices.
//!
//! Knows no other price that the hours hang on. Start at [`Stocked`].

use super::laid::laid;
use super::setting::Setting;
use crate::simulation::design::OptionDesign;
use crate::simulation::plan::OptionPlan;
use crate::simulation::sums::YearSums;
use crate::supply::year::AmpleYear;
use crate::supply::{MarketDays, Store, Supplied};
use crate::weather::OutdoorRun;

/// An option laid on the hours of a run, and its year with ample fuel.
pub(super) struct Stocked {
    plan: OptionPlan,
    ample: AmpleYear<YearSums>,
}

/// An option's year once its fuel is bought.
pub(super) struct Bought<'a> {
    /// Its stores.
    pub(super) stores: Vec<Supplied>,
    own: Option<YearSums>,
    ample: &'a YearSums,
}

impl Bought<'_> {
    /// The sums of its hours.
    pub(super) fn sums(&self) -> &YearSums {
        self.own.as_ref().unwrap_or(self.ample)
    }
}

impl Stocked {
    /// Runs the hours of an option.
    pub(super) fn new(design: &OptionDesign, setting: &Setting<'_>, run: &OutdoorRun) -> Self {
        let plan = laid(setting, design, run);
        let ample = AmpleYear::run(&plan, &setting.supplies.of(&design.name), no_sums(setting, run));
        Self { plan, ample }
    }

    /// Buys its fuel at the prices of a setting that asks the same hours of it.
    pub(super) fn bought(
        &self,
        design: &OptionDesign,
        setting: &Setting<'_>,
        run: &OutdoorRun,
    ) -> Bought<'_> {
        let (stores, own) = on_stores(&self.ample, &self.plan, design, setting, run);
        Bought { stores, own, ample: self.ample.sink() }
    }
}

/// The sums and the stores of an option on the hours it is laid on.
pub(super) fn year_on_stores(
    plan: &OptionPlan,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> (YearSums, Vec<Supplied>) {
    let ample = AmpleYear::run(plan, &setting.supplies.of(&design.name), no_sums(setting, run));
    let (stores, own) = on_stores(&ample, plan, design, setting, run);
    (own.unwrap_or_else(|| ample.into_sink()), stores)
}

/// Nothing summed up yet.
pub(super) fn no_sums(setting: &Setting<'_>, run: &OutdoorRun) -> YearSums {
    YearSums::new(&run.calendar, setting.fuels.count(), setting.zones.len())
}

fn on_stores(
    ample: &AmpleYear<YearSums>,
    plan: &OptionPlan,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> (Vec<Supplied>, Option<YearSums>) {
    let market = |store: &Store, yearly_kwh| {
        let price = setting.prices.of(store.fuel);
        price.map_or_else(MarketDays::default, |p| MarketDays::of_run(&run.calendar, p, yearly_kwh))
    };
    ample.on(plan, &setting.supplies.of(&design.name), market, || no_sums(setting, run))
}
