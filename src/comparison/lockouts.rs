//! Whether a heat pump and a furnace that take turns would cost clearly less at another lock-out.
//!
//! An option is judged at the lock-out it was given; a poor one would be held against the machines.
//! Start at [`better_lockouts`].

use super::note::BetterLockout;
use super::option::{OptionResult, year_cost};
use super::setting::Setting;
use crate::simulation::design::OptionDesign;
use crate::units::fahrenheit_to_celsius;
use crate::weather::OutdoorRun;

/// Lock-outs that are tried, °F, beside none.
const TRIED_F: std::ops::RangeInclusive<i32> = -3..=9;
/// Steps of the tried lock-outs, °F.
const STEP_F: i32 = 5;
/// A saving is told from this on, in the job's currency and as a share of the yearly cost.
const TOLD_FROM: (f64, f64) = (50.0, 0.02);

/// For each zone whose heaters take turns below a lock-out: the cheapest of those tried, if it costs
/// clearly less than the option's own.
pub(super) fn better_lockouts(
    options: &[OptionResult],
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> Vec<BetterLockout> {
    let places = options.iter().flat_map(|o| (0..o.design.zones.len()).map(move |zone| (o, zone)));
    places.filter_map(|(option, zone)| better(option, zone, setting, run)).collect()
}

fn better(
    option: &OptionResult,
    zone: usize,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> Option<BetterLockout> {
    let own = option.design.zones.get(zone)?.changeover?;
    // On cost the hours themselves say which of the two is cheaper.
    let own_lockout_c = own.compressor_lockout_c.filter(|_| own.on_cost.is_none())?;
    let steps = TRIED_F.map(|step| Some(fahrenheit_to_celsius(f64::from(step * STEP_F))));
    let tried = std::iter::once(None).chain(steps);
    let costs = tried.filter_map(|lockout_c| {
        let design = with_lockout(&option.design, zone, lockout_c)?;
        Some((lockout_c, year_cost(&design, setting, run)))
    });
    let (lockout_c, cost) = costs.min_by(|a, b| a.1.total_cmp(&b.1))?;
    let (own_cost, saved) = (option.yearly_cost(), option.yearly_cost() - cost);
    (saved >= TOLD_FROM.0.max(TOLD_FROM.1 * own_cost)).then(|| BetterLockout {
        option: option.design.name.clone(),
        zone: setting.zones.get(zone).map_or_else(String::new, |z| z.name.clone()),
        own_lockout_c,
        lockout_c,
        saved,
    })
}

fn with_lockout(design: &OptionDesign, zone: usize, lockout_c: Option<f64>) -> Option<OptionDesign> {
    let mut design = design.clone();
    design.zones.get_mut(zone)?.changeover.as_mut()?.compressor_lockout_c = lockout_c;
    Some(design)
}
