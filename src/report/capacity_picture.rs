//! What a zone needs and what the first machines of the options give, over outdoor temperature, as values that the
//! capacity chart draws.
//!
//! Start at [`capacity`].

use super::charts::{Balance, CapacityChart, CapacityPanel, MachineCurve, Mark};
use super::figures::Measure;
use super::warmth;
use crate::coldnight::first_machine::left_by_unit;
use crate::comparison::{Comparison, OptionResult};
use crate::equipment::machine::Heating;
use crate::equipment::{Machine, Presence};
use crate::load::Zone;
use crate::simulation::source::heating_source_c;

/// Outdoor temperature up to which charts of heat are drawn, °C (65 °F).
const WARM_END_C: f64 = 33.0 / 1.8;

/// Heat needed and heat that first machines can give over outdoor temperature, a panel a zone.
pub fn capacity(c: &Comparison, measure: Measure, about: &str) -> CapacityChart {
    let coldest = c.bins.bins.iter().map(|b| b.temperature_c).chain(c.site.extreme_low_c).fold(0.0, f64::min);
    CapacityChart {
        title: "Heat needed and heat the machines can give".into(),
        subtitle: about.to_owned(),
        temperature_unit: measure.degree().into(),
        power_unit: measure.power_unit().into(),
        panels: (0..c.zones.len()).filter_map(|z| panel(c, z, coldest, measure)).collect(),
        foot: format!(
            "First machine of each option, as it reaches the rooms, running all the hour; backup left out.{} \
             An estimate, not a quote; local codes and a licensed contractor decide.",
            warmth::spread_over_the_day(c)
        ),
    }
}

fn panel(c: &Comparison, z: usize, coldest_c: f64, measure: Measure) -> Option<CapacityPanel> {
    let zone = c.zones.get(z)?;
    let grid = temperatures(coldest_c);
    let shown = |t: f64, kw: f64| (measure.temperature(t), measure.power(kw));
    let firsts = first_machines(c, z);
    let curves = firsts.iter().filter_map(|first| Some((first, curve(c, first, z, &grid, &shown)?)));
    let curves = alike_together(curves.collect(), c);
    let balances = c.options.iter().filter_map(|o| {
        let machine = c.machines.get(*o.design.zones.get(z)?.heaters.first()?)?;
        let t = o.zones.get(z)?.first_heater_balance_c?;
        let (temperature, load) = shown(t, zone.steady_need_kw(t));
        let (curve, _) = curves.iter().find(|(_, names)| names.contains(&machine.name))?;
        Some(Balance { machine: curve.name.clone(), temperature, load })
    });
    let mut once: Vec<Balance> = Vec::new();
    for balance in balances {
        if once.iter().all(|b| b.machine != balance.machine) {
            once.push(balance);
        }
    }
    let design = Mark { label: "design".into(), temperature: measure.temperature(zone.design_temperature_c) };
    let extreme = c
        .site
        .extreme_low_c
        .map(|t| Mark { label: "coldest planned".into(), temperature: measure.temperature(t) });
    Some(CapacityPanel {
        zone: zone.name.clone(),
        load: grid.iter().map(|t| shown(*t, zone.steady_need_kw(*t))).collect(),
        machines: curves.into_iter().map(|(curve, _)| curve).collect(),
        balances: once,
        marks: std::iter::once(design).chain(extreme).chain(lockouts(c, z, measure)).collect(),
        hours: c.bins.bins.iter().rev().map(|b| (measure.temperature(b.temperature_c), b.hours)).collect(),
    })
}

/// The compressor lock-outs of the zone's options, each once.
fn lockouts(c: &Comparison, z: usize, measure: Measure) -> Vec<Mark> {
    let own = c.options.iter().filter_map(|o| o.design.zones.get(z)?.changeover?.compressor_lockout_c);
    let mut list: Vec<f64> = own.collect();
    list.sort_by(f64::total_cmp);
    list.dedup();
    let mark = |t| Mark { label: "compressor lock-out".into(), temperature: measure.temperature(t) };
    list.into_iter().map(mark).collect()
}

/// Every half kelvin from the coldest to 65 °F.
fn temperatures(coldest_c: f64) -> Vec<f64> {
    let steps = ((WARM_END_C - coldest_c) * 2.0).floor() as usize;
    (0..=steps).map(|i| coldest_c + 0.5 * i as f64).collect()
}

/// A machine that comes first in some options.
struct First<'a> {
    machine: &'a Machine,
    /// Their places.
    options: Vec<usize>,
    /// Colder than this outdoors none of them runs it, °C.
    lockout_c: f64,
}

fn first_machines(c: &Comparison, z: usize) -> Vec<First<'_>> {
    let mut list: Vec<First<'_>> = Vec::new();
    let first = |o: &OptionResult| c.machines.get(*o.design.zones.get(z)?.heaters.first()?);
    for (place, option, machine) in c.options.iter().enumerate().filter_map(|(i, o)| Some((i, o, first(o)?)))
    {
        let changeover = option.design.zones.get(z).and_then(|zone| zone.changeover);
        let lockout_c = changeover.and_then(|c| c.compressor_lockout_c).unwrap_or(f64::NEG_INFINITY);
        match list.iter_mut().find(|own| own.machine.name == machine.name) {
            Some(own) => {
                own.options.push(place);
                own.lockout_c = own.lockout_c.min(lockout_c);
            }
            None => list.push(First { machine, options: vec![place], lockout_c }),
        }
    }
    list
}

/// Machines whose lines would hide each other as one line with all their names, each with the options that
/// have it; beside each line the names.
fn alike_together(
    curves: Vec<(&First<'_>, MachineCurve)>,
    c: &Comparison,
) -> Vec<(MachineCurve, Vec<String>)> {
    let mut list: Vec<(MachineCurve, Vec<String>, Vec<usize>)> = Vec::new();
    for (first, curve) in curves {
        let same = |own: &MachineCurve| {
            own.greatest == curve.greatest && own.on_again == curve.on_again && own.least == curve.least
        };
        match list.iter_mut().find(|(own, ..)| same(own)) {
            Some((own, names, options)) => {
                own.name = format!("{} and {}", own.name, curve.name);
                options.extend(&first.options);
                names.push(curve.name);
            }
            None => {
                let name = curve.name.clone();
                list.push((curve, vec![name], first.options.clone()));
            }
        }
    }
    let told = list.into_iter().map(|(curve, names, options)| {
        (MachineCurve { options: which_options(c, &options), ..curve }, names)
    });
    told.collect()
}

/// The options of these places in words; nothing where they are all.
fn which_options(c: &Comparison, places: &[usize]) -> String {
    let named = |with: bool| -> Vec<String> {
        let all = c.options.iter().enumerate().filter(|(i, _)| places.contains(i) == with);
        all.map(|(_, option)| format!("\u{201c}{}\u{201d}", option.design.name)).collect()
    };
    let (with, without) = (named(true), named(false));
    match without.len() {
        0 => String::new(),
        others if others + 1 < with.len() => format!("in all but {}", without.join(", ")),
        _ => format!("in {}", with.join(", ")),
    }
}

fn curve(
    c: &Comparison,
    first: &First<'_>,
    z: usize,
    grid: &[f64],
    shown: &impl Fn(f64, f64) -> (f64, f64),
) -> Option<MachineCurve> {
    let (machine, zone) = (first.machine, c.zones.get(z)?);
    let heating = machine.heating.as_ref()?;
    let design = c.options.get(*first.options.first()?)?.design.zones.get(z)?;
    // A head gives what its outdoor unit leaves it, and nothing where that is off.
    let left = |t: f64| left_by_unit(machine, design, &c.machines, t);
    let unit = machine.outdoor_unit.and_then(|i| c.machines.get(i)?.heating.as_ref());
    let in_room = |t: f64, kw: f64| {
        let (kept, lost_kw) = if machine.ducted { zone.ducts_at(t) } else { (1.0, 0.0) };
        (kept * kw - lost_kw).max(0.0)
    };
    let by_air = machine.ground.is_none();
    let off_below_c = [Some(heating), unit].into_iter().flatten().map(Heating::no_data_below_c);
    let off_below_c = off_below_c.fold(first.lockout_c, f64::max);
    let cut_outs = || [Some(heating), unit].into_iter().flatten().filter_map(|h| h.cut_out_c);
    // What comes from the ground knows no outdoors but in its lock-out.
    let edge = if by_air { cut_outs().fold(off_below_c, f64::max) } else { first.lockout_c };
    let on: Vec<f64> = points(machine, zone, edge, grid);
    let of = |t: f64| heating.row_at(heating_source_c(machine, zone, t, None));
    let turns_down = on.iter().any(|t| of(*t).least.capacity_kw < of(*t).greatest.capacity_kw);
    let lasting = machine.lasting_share(&heating.hour_at(0.0));
    let coldest = on.first().copied()?;
    let cut_ons = [Some(heating), unit].into_iter().flatten().filter_map(|h| h.cut_out_c.and(h.cut_on_c));
    let on_again = cut_ons.reduce(f64::max).filter(|t| by_air && *t > coldest + 1e-6);
    Some(MachineCurve {
        name: machine.name.clone(),
        option: first.options.first().copied().unwrap_or_default(),
        options: String::new(),
        greatest: on
            .iter()
            .map(|t| shown(*t, in_room(*t, left(*t) * lasting * of(*t).greatest.capacity_kw)))
            .collect(),
        least: turns_down.then(|| {
            on.iter().map(|t| shown(*t, in_room(*t, left(*t) * of(*t).least.capacity_kw))).collect()
        }),
        off_at_end: cut_outs().any(|t| t >= off_below_c),
        on_again: on_again.map(|t| shown(t, 0.0).0),
    })
}

/// The temperatures at which the machine is on, with the very edge where it goes off.
fn points(machine: &Machine, zone: &Zone, edge: f64, grid: &[f64]) -> Vec<f64> {
    let Some(heating) = &machine.heating else { return Vec::new() };
    let on = |t: f64| {
        let presence = heating.presence(heating_source_c(machine, zone, t, None), true);
        presence == Presence::On && t >= edge - 1e-9
    };
    let first = grid.first().copied().unwrap_or_default();
    let mut list: Vec<f64> = grid.iter().copied().filter(|t| on(*t)).collect();
    if edge > first && list.first().is_some_and(|t| *t > edge + 1e-6) {
        list.insert(0, edge);
    }
    list
}
