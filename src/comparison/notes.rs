//! What a reader must know beside the figures, gathered from the job's parts, the weather and the
//! results.
//!
//! Start at [`notes`].

use super::note::{CLOUDS_F, Note, PastBillOff, PriceNote, StoreNote, Uncovered};
use super::off_in_cold::odd_cut_outs;
use super::option::OptionResult;
use super::run_weather::RunWeather;
use super::site::PLANNED_YEARS;
use super::{
    Parts, charges, doubtful, efficiency, labels, mismatch, plausible, proportion, row_slip, slip, tenfold,
    unlikely,
};
use crate::coldnight::strips::Panel;
use crate::equipment::Machine;
use crate::equipment::machine::Heating;
use crate::fuel::FuelId;
use crate::job::Job;
use crate::prices::FuelPrice;
use crate::simulation::design::OptionDesign;
use crate::supply::Store;
use crate::supply::contract::PricePlan;
use crate::supply::tank::Placement;
use crate::units::fahrenheit_to_celsius;
use crate::weather::statistics::coldest_hour;
use crate::weather::{OutdoorYear, YearKind, quality};

/// So many suspicions of winters that are not run are told; more would say nothing new.
const MOST_OF_OTHER_WINTERS: usize = 5;

/// The fuel that clouds in the cold.
const CLOUDS: &str = "oil_no_2";

/// That a machine runs where its map has ended.
fn guessed(machine: &Machine, heating: &Heating, parts: &Parts, weather: &RunWeather) -> Option<Note> {
    let (below_c, cut_out_c) = heating.guessed_between()?;
    let outdoors = match weather {
        RunWeather::Year(year) => coldest_hour(&year.columns.dry_bulb_c).map(|hour| hour.temperature_c),
        RunWeather::Bins(bins) => bins.bins.iter().map(|bin| bin.temperature_c).reduce(f64::min),
    };
    let designs = parts.zones.iter().map(|zone| zone.design_temperature_c);
    let coldest_c = designs.chain(outdoors).chain(parts.site.extreme_low_c).fold(f64::INFINITY, f64::min);
    // A ground loop's machine does not go by the outdoors.
    let night_c = Some(coldest_c).filter(|t| machine.ground.is_none() && *t < below_c);
    let coldest_row_c = heating.map.coldest_c();
    Some(Note::Guessed { machine: machine.name.clone(), coldest_row_c, below_c, cut_out_c, night_c })
}

/// How long each machine is off, and why, or runs where its map has ended.
fn when_off(parts: &Parts, weather: &RunWeather, options: &[OptionResult]) -> Vec<Note> {
    let mut notes = Vec::new();
    for (i, machine) in parts.machines.iter().enumerate() {
        let Some(heating) = &machine.heating else { continue };
        let zones = options.iter().flat_map(|o| o.design.zones.iter().zip(&o.zones));
        let places = zones.flat_map(|(d, z)| d.heaters.iter().zip(&z.off)).filter(|(h, _)| **h == i);
        let (no_data, cut_out, hours) = places.fold((0, 0, 0), |(n, c, i), (_, off)| {
            (n.max(off.no_data), c.max(off.cut_out), i.max(off.interrupted))
        });
        let name = machine.name.clone();
        notes.extend(guessed(machine, heating, parts, weather));
        if hours > 0 {
            notes.push(Note::Price(PriceNote::Interrupted { machine: name.clone(), hours }));
        }
        if no_data > 0 {
            let below_c = heating.no_data_below_c();
            notes.push(Note::NoDataBelow { machine: name.clone(), below_c, hours: no_data });
        }
        if let (Some(at_c), true) = (heating.cut_out_c, cut_out > 0) {
            notes.push(Note::CutOut { machine: name, at_c, hours: cut_out });
        }
    }
    notes
}

/// What is seldom so of a job's own figures, before any hour is run.
pub(super) fn of_job(job: &Job, parts: &Parts, weather: &RunWeather) -> Vec<Note> {
    let mut notes = Vec::new();
    let remarks = plausible::remarks(job, &parts.prices, &parts.fuels, &parts.machines);
    let helpless = plausible::defrosts_without_help(job, &parts.designs, &parts.machines);
    let beyond = plausible::tempered_beyond_the_bank(&parts.designs, &parts.machines);
    notes.extend(remarks.into_iter().chain(helpless).chain(beyond).map(Note::Oddity));
    notes.extend(mismatch::mismatches(job, parts, weather).into_iter().map(Note::Mismatch));
    notes.extend(
        slip::slips(job)
            .into_iter()
            .chain(odd_cut_outs(job))
            .chain(row_slip::odd_outdoors(job))
            .map(Note::Slip),
    );
    notes.extend(tenfold::tenfolds(job).into_iter().map(Note::Tenfold));
    notes.extend(efficiency::odd_efficiencies(job).into_iter().map(Note::Efficiency));
    notes.extend(unlikely::unlikely(job, parts).into_iter().map(Note::Unlikely));
    notes.extend(doubtful::doubts(job, parts, weather).into_iter().map(Note::Doubt));
    notes.extend(charges::charges(job, &parts.fuels).into_iter().map(Note::Doubt));
    notes
}

/// Every note of a comparison but those on reading its weather.
pub(super) fn notes(job: &Job, parts: &Parts, weather: &RunWeather, options: &[OptionResult]) -> Vec<Note> {
    let mut notes = Vec::new();
    match weather {
        RunWeather::Year(year) => weather_notes(year, parts, &mut notes),
        RunWeather::Bins(bins) => {
            notes.push(Note::BinsOnly);
            notes.extend(quality::of_bins(bins).map(Note::Weather));
            notes.extend((!parts.supplies.stores.is_empty()).then_some(Note::StoresNotCounted));
        }
    }
    notes.extend(extremes(job, parts, weather));
    notes.extend(when_off(parts, weather, options));
    notes.extend(of_job(job, parts, weather));
    let carried = carried_at_design(parts, options);
    let out = proportion::out_of_proportion(job, parts, &carried, plausible::odd_load(job).is_some());
    notes.extend(out.into_iter().map(Note::Disproportion));
    for option in options {
        for (zone, result) in parts.zones.iter().zip(&option.zones) {
            notes.extend(result.economic_balance.map(|balance| Note::EconomicBalance {
                option: option.design.name.clone(),
                zone: zone.name.clone(),
                balance,
            }));
        }
    }
    notes.extend(bills_off(parts));
    notes.extend(labels::label_notes(job, &parts.machines, &parts.ratings));
    notes.extend(parts.designs.iter().filter_map(|design| does_not_cool(design, parts)));
    panel_notes(parts, options, &mut notes);
    store_notes(options, &mut notes);
    notes.extend(oil_may_cloud(parts, weather, options));
    notes.extend(price_notes(job, parts).into_iter().map(Note::Price));
    notes
}

/// The most that any option gives of what each zone needs at its design temperature.
fn carried_at_design(parts: &Parts, options: &[OptionResult]) -> Vec<Option<f64>> {
    let carried = |z: usize| {
        let shares = options.iter().filter_map(|option| Some(option.zones.get(z)?.at_design.share()));
        shares.max_by(f64::total_cmp)
    };
    (0..parts.zones.len()).map(carried).collect()
}

/// Bills of the past that a slip must have made what they are.
fn bills_off(parts: &Parts) -> Vec<Note> {
    let Some((past, fuel)) =
        parts.past_use.as_ref().and_then(|past| Some((past, parts.fuels.get(past.fuel)?)))
    else {
        return Vec::new();
    };
    let off = past.slips().map(|bill| PastBillOff {
        from: bill.from,
        to: bill.to,
        used: bill.used_kwh / fuel.kwh_per_unit,
        calculated: bill.calculated_kwh / fuel.kwh_per_unit,
        unit: fuel.selling_unit.clone(),
    });
    off.map(Note::PastBill).collect()
}

/// Zones that need cooling and get none from this option, though another cools them.
fn does_not_cool(design: &OptionDesign, parts: &Parts) -> Option<Note> {
    let cooled = |z: usize| parts.designs.iter().any(|d| d.zones.get(z).is_some_and(|d| d.cooler.is_some()));
    let zones = parts.zones.iter().zip(&design.zones).enumerate();
    let not = zones.filter(|(z, (zone, d))| zone.cooling.is_some() && d.cooler.is_none() && cooled(*z));
    let zones: Vec<String> = not.map(|(_, (zone, _))| zone.name.clone()).collect();
    (!zones.is_empty()).then(|| Note::DoesNotCool { option: design.name.clone(), zones })
}

/// What adds to prices by the year's use, and where prices come from.
fn price_notes(job: &Job, parts: &Parts) -> Vec<PriceNote> {
    let named = |p: &FuelPrice| parts.fuels.get(p.fuel).map(|fuel| fuel.name.clone());
    let by_use = parts.prices.0.iter().filter(|p| !p.by_yearly_use.is_empty()).filter_map(named);
    let by_use = by_use.map(|fuel| PriceNote::YearlyUseOfThisYear { fuel });
    let told = parts.prices.0.iter().filter(|p| !p.is_heating() || p.source.is_some());
    let sources = told.filter_map(|p| {
        let (heating, source) = (p.is_heating(), p.source.clone());
        Some(PriceNote::Source { fuel: named(p)?, heating, source })
    });
    let electricity = parts.prices.of(FuelId::ELECTRICITY);
    let alone =
        electricity.is_some_and(FuelPrice::depends_on_use) && job.household.base_electricity.is_none();
    let alone = alone.then_some(PriceNote::HeatAloneOnTiers);
    alone.into_iter().chain(by_use).chain(sources).collect()
}

/// What each option's stores are short of.
fn store_notes(options: &[OptionResult], notes: &mut Vec<Note>) {
    for (option, result) in options.iter().flat_map(|o| o.stores.iter().map(move |store| (o, store))) {
        let (store, year) = (&result.supplied.store, &result.supplied.year);
        let first = year.dry.first().and_then(|(day, _)| result.supplied.market.dates.get(*day));
        let dry = first.map(|first| StoreNote::RanDry {
            times: year.run_outs,
            hours: year.dry_hours(),
            first: *first,
        });
        let vapour = (year.vapour_hours > 0).then_some(StoreNote::ShortOfVapour { hours: year.vapour_hours });
        let asked_kw = result.connected_kw;
        let gives_kw = result.gives_at_design_kw.filter(|gives_kw| *gives_kw < asked_kw);
        let boils = gives_kw.map(|gives_kw| StoreNote::AsksMoreThanBoilsOff { asked_kw, gives_kw });
        let (lead_days, longest_lead) = (store.contract.lead_days, store.contract.longest_stated_lead());
        let lasts = result.days_from_reorder.filter(|days| *days < longest_lead as f64);
        let late = lasts.map(|lasts_days| StoreNote::OrderedLate { lasts_days, lead_days, longest_lead });
        let room = store.room_for_drop_kwh().filter(|level| *level < store.contract.reorder_kwh);
        let room = room.map(|level| StoreNote::NoRoomForDrop {
            asked: store.tank.share(store.contract.reorder_kwh),
            room_at: store.tank.share(level),
        });
        let plan = store.contract.price != PricePlan::Market;
        let ordinary = option.ordinary.as_ref().filter(|found| plan && found.store.fuel == store.fuel);
        let plan = ordinary.map(|found| StoreNote::PricePlan {
            costs_more: option.yearly_cost() - found.yearly_cost,
            ordinary: Box::new(found.store.contract.clone()),
        });
        let each = result.supplied.cash / 12.0;
        let parts = store.contract.budget_plan.then_some(StoreNote::TwelveParts { each });
        let found = [dry, vapour, boils, late, room, plan, parts];
        notes.extend(found.into_iter().flatten().map(|what| Note::Store {
            option: option.design.name.clone(),
            store: store.name.clone(),
            what,
        }));
    }
}

/// No. 2 oil that stands in the open in weather in which it clouds, and stops in its line.
fn oil_may_cloud(parts: &Parts, weather: &RunWeather, options: &[OptionResult]) -> Vec<Note> {
    let (Some(oil), RunWeather::Year(year)) = (parts.fuels.find(CLOUDS), weather) else { return Vec::new() };
    let from_c = fahrenheit_to_celsius(CLOUDS_F.1);
    let hours = year.columns.dry_bulb_c.iter().filter(|t| **t < from_c).count();
    let stores = options.iter().flat_map(|o| o.stores.iter().map(move |result| (o, &result.supplied.store)));
    let outside = stores.filter(|(_, store)| {
        store.fuel == oil && store.tank.placement == Placement::AboveGround && hours > 0
    });
    let note = |(option, store): (&OptionResult, &Store)| Note::Store {
        option: option.design.name.clone(),
        store: store.name.clone(),
        what: StoreNote::MayCloud { hours },
    };
    outside.map(note).collect()
}

/// What the installed strips and baseboards of each option ask of the panel.
fn panel_notes(parts: &Parts, options: &[OptionResult], notes: &mut Vec<Note>) {
    let spare_a = parts.basis.panel_spare_a;
    let (mut unknown, mut carries) = (Vec::new(), Vec::new());
    for option in options {
        let installed = option.cold_night.strips(|z| z.installed);
        let (name, asked_a) = (option.design.name.clone(), installed.amps_with_margin());
        match (installed.panel(spare_a), spare_a) {
            (Panel::Unknown, _) => unknown.push((name, asked_a)),
            (Panel::TooSmall(_), Some(spare_a)) => {
                notes.push(Note::PanelTooSmall { option: name, asked_a, spare_a });
            }
            (Panel::Carries(_), _) => carries.push((name, asked_a)),
            _ => {}
        }
    }
    if let Some(spare_a) = spare_a.filter(|_| !carries.is_empty()) {
        notes.push(Note::PanelCarries { options: carries, spare_a });
    }
    if !unknown.is_empty() {
        notes.push(Note::PanelUnknown { options: unknown });
    }
}

/// The record's low of the planned years; or, where nothing tells one, why.
fn extremes(job: &Job, parts: &Parts, weather: &RunWeather) -> Option<Note> {
    let winters = parts.winters.as_ref();
    if let Some((of, low)) = winters.and_then(|w| Some((w.extremes.as_ref()?, w.low(PLANNED_YEARS)?))) {
        let (winters, coldest_c) = (of.winters, of.coldest_c);
        return Some(Note::RecordLow { low, winters, coldest_c, planned: job.site.extreme_low.is_none() });
    }
    let why = match weather {
        RunWeather::Bins(_) => Uncovered::Bins,
        RunWeather::Year(year) => match year.kind {
            // The note on a synthetic year says it itself.
            YearKind::Synthetic { .. } => return None,
            YearKind::Typical => Uncovered::TypicalYear,
            YearKind::Actual(_) | YearKind::FromJuly(_) => {
                winters.map_or(Uncovered::OneYear, |w| Uncovered::FewWinters(w.minima.len()))
            }
        },
    };
    parts.site.extreme_low_c.is_none().then_some(Note::ExtremesNotCovered(why))
}

fn weather_notes(year: &OutdoorYear, parts: &Parts, notes: &mut Vec<Note>) {
    let covered = parts.site.extreme_low_c.is_some();
    match year.kind {
        YearKind::Typical if covered => notes.push(Note::TypicalYear),
        YearKind::Synthetic { seed } => notes.push(Note::SyntheticYear { seed, extreme_low_given: covered }),
        YearKind::Typical | YearKind::Actual(_) | YearKind::FromJuly(_) => {}
    }
    let beside = parts.winters.iter().flat_map(|winters| winters.suspect_beside(year.kind));
    let beside = beside.take(MOST_OF_OTHER_WINTERS).cloned();
    notes.extend(quality::flags_in(year, parts.site.zone).into_iter().chain(beside).map(Note::Weather));
    let left_out = parts.winters.iter().flat_map(|winters| winters.left_out.iter().copied());
    let left_out: Vec<i32> = left_out.collect();
    if !left_out.is_empty() {
        notes.push(Note::WintersLeftOut { first_years: left_out });
    }
    if year.filled_hours > 0 {
        notes.push(Note::WeatherFilled { hours: year.filled_hours, at: year.filled_at() });
    }
    if year.offset_in(parts.site.zone).is_none() || parts.site.zone.is_none() {
        notes.push(Note::ClockUnknown);
    }
}
