//! Tables for people of what goes wrong on the coldest nights: a machine fails, the power goes.
//!
//! Start at [`worst_failures`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Table};
use super::warmth::below;
use super::wording::{self, MONTHS};
use crate::calendar::Stamp;
use crate::coldnight::failure::{FailureRun, Failures};
use crate::coldnight::heat_off::Fall;
use crate::coldnight::power_out::{KWH_PER_GALLON, START_SURGE};
use crate::comparison::{Comparison, OptionResult, RunWeather};
use crate::equipment::household::{HouseholdKind, WaterForm};
use crate::equipment::{Machine, MachineKind};
use crate::fuel::FuelId;
use crate::load::Zone;
use crate::simulation::comfort::FORTY_FIVE_F_C;

/// With more zones than this only the coldest room is shown.
const MOST_ZONE_COLUMNS: usize = 3;

/// The worst failure of each option; nothing where the weather has no hours.
pub fn worst_failures(c: &Comparison, measure: Measure) -> Option<Table> {
    let failures = c.options.iter().find_map(|o| o.cold_night.failures.as_ref())?;
    let by_zone = c.zones.len() <= MOST_ZONE_COLUMNS;
    let worst = |o: &OptionResult| {
        let failures = o.cold_night.failures.as_ref()?;
        let mut row = failure_row(&o.design.name, failures.worst_machine()?, c, by_zone, measure);
        let with_blower_out = failures.worst_blower().and_then(FailureRun::lowest_room_c);
        row.push(Cell::maybe(with_blower_out.map(|t| measure.temperature(t)), 0));
        Some(row)
    };
    Some(Table {
        name: "worst_failures".into(),
        heading: format!("What if a machine fails and stays out for {}?", coldest_days(c, failures)),
        columns: failure_columns(c, by_zone, measure),
        rows: c.options.iter().filter_map(worst).collect(),
        remark: Some(format!(
            "The house is warm when it fails, and everything else keeps running{}; a blower takes all machines \
             on its ducts with it.{} Gains from people and sun are counted as in the year. It is {} outdoors on average. Pipes may freeze below {}.",
            if locked_out(c) { ", a locked-out heat pump too" } else { "" },
            if has_hand_filled(c) {
                " A stove filled by hand has no part here that fails; what it does not get, its fuel, somebody must bring."
            } else {
                ""
            },
            measure.temperature_words(failures.mean_outdoor_c),
            measure.temperature_words(FORTY_FIVE_F_C)
        )),
    })
}

/// Whether some option heats with a stove that is filled by hand.
fn has_hand_filled(c: &Comparison) -> bool {
    c.options.iter().any(|o| heaters(c, o).any(|m| m.kind == MachineKind::WoodStove))
}

fn heaters<'a>(c: &'a Comparison, o: &'a OptionResult) -> impl Iterator<Item = &'a Machine> {
    o.design.zones.iter().flat_map(|z| &z.heaters).filter_map(|i| c.machines.get(*i))
}

/// Whether an option has a wood stove that is taken to be fed day and night, since nobody says how often.
pub fn fed_without_a_break(c: &Comparison, o: &OptionResult) -> bool {
    heaters(c, o).any(is_fed_without_a_break)
}

/// The same of a stove that heats some zone before all others.
pub fn led_without_a_break(c: &Comparison, o: &OptionResult) -> bool {
    let mut firsts = o.design.zones.iter().filter_map(|z| c.machines.get(*z.heaters.first()?));
    firsts.any(is_fed_without_a_break)
}

fn is_fed_without_a_break(machine: &Machine) -> bool {
    machine.kind == MachineKind::WoodStove && machine.daily_fuelling_kwh.is_none()
}

/// What the watts have in them, and what not, beyond what runs for heating.
fn watts_words(c: &Comparison) -> Vec<String> {
    let firsts = || {
        let zones = c.options.iter().flat_map(|o| &o.design.zones);
        let firsts = zones.filter_map(|z| c.machines.get(*z.heaters.first()?));
        firsts.filter(|m| m.kind == MachineKind::Resistance)
    };
    let mut words = Vec::new();
    if firsts().next().is_some() {
        words.push(
            "Strips or baseboards that come first in a zone are what heats it, and stay on with strips off."
                .into(),
        );
    }
    let outs = c.options.iter().map(|o| &o.cold_night.power_out);
    if outs.flat_map(|out| [out.strips_off, out.strips_on]).any(|generator| generator.lacks_blower) {
        words.push(
            "Strips that run alone in their ducts need a blower, which the job does not give and these watts leave out: \
             see its plate."
                .into(),
        );
    }
    let needs_power = c.options.iter().flat_map(|o| &o.design.household.machines).filter(|m| match &m.kind {
        HouseholdKind::WaterHeater(heater) => m.fuel == FuelId::ELECTRICITY || heater.form != WaterForm::Tank,
        _ => false,
    });
    let mut names: Vec<&str> = needs_power.map(|m| m.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    if !names.is_empty() {
        words
            .push(format!("Hot water by {} needs power too, which is not in these watts.", names.join(", ")));
    }
    words
}

/// Whether some heat pump is locked out in the cold while its furnace runs.
fn locked_out(c: &Comparison) -> bool {
    let zones = c.options.iter().flat_map(|o| &o.design.zones);
    zones.filter_map(|z| z.changeover).any(|how| how.compressor_lockout_c.is_some())
}

/// `the coldest 5 days (20 to 24 Jan)`.
fn coldest_days(c: &Comparison, failures: &Failures) -> String {
    let days = failures.days;
    let RunWeather::Year(year) = &c.weather else { return format!("{days} days") };
    let run = year.run(c.site.zone);
    let stamps = run.calendar.stamps();
    let day = |hour: usize| stamps.get(hour).map(day_words).unwrap_or_default();
    let (first, last) = (day(failures.first_hour), day(failures.first_hour + 24 * days - 1));
    match days {
        1 => format!("the coldest day ({first})"),
        _ => format!("the coldest {days} days ({first} to {last})"),
    }
}

fn day_words(stamp: &Stamp) -> String {
    let month = MONTHS.get(usize::from(stamp.month).saturating_sub(1)).copied().unwrap_or_default();
    format!("{} {month}", stamp.day)
}

fn failure_columns(c: &Comparison, by_zone: bool, measure: Measure) -> Vec<Column> {
    let (degree, key) = (measure.degree(), measure.degree_key());
    let mut columns =
        vec![Column::words("Option", "option"), Column::words("Worst machine to lose", "worst_machine")];
    let room = |z: &Zone| {
        let name = z.name.replace(' ', "_");
        Column::numbers(format!("{} falls to {degree}", z.name), format!("lowest_room_{name}_{key}"))
    };
    if by_zone {
        columns.extend(c.zones.iter().map(room));
    } else {
        columns.push(Column::numbers(format!("Coldest room {degree}"), format!("lowest_room_{key}")));
    }
    columns.push(below(45.0, measure));
    let head = format!("If a blower fails {degree}");
    columns.push(Column::numbers(head, format!("lowest_room_blower_out_{key}")));
    columns
}

fn failure_row(option: &str, run: &FailureRun, c: &Comparison, by_zone: bool, measure: Measure) -> Vec<Cell> {
    let shown = |celsius: Option<f64>| Cell::maybe(celsius.map(|t| measure.temperature(t)), 0);
    let mut row = vec![Cell::text(option), Cell::text(wording::failure(&run.group, c))];
    if by_zone {
        row.extend(run.zones.iter().map(|z| shown(z.room.as_ref().map(|r| r.lowest_c))));
    } else {
        row.push(shown(run.lowest_room_c()));
    }
    row.push(Cell::maybe(run.hours_below_45f().map(|h| h as f64), 0));
    row
}

/// What each option needs when the power goes on the design night.
pub fn power_out(c: &Comparison, measure: Measure) -> Table {
    let surge = c.options.iter().any(|o| o.cold_night.power_out.start_surge_kw.is_some());
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::words("Heats without power?", "heats_without_power"),
        Column::numbers("Watts with strips off", "running_strips_off_W"),
        Column::numbers("% of need met so", "share_of_need_strips_off_percent"),
        Column::numbers("Watts with the strips it needs", "running_all_on_W"),
    ];
    if surge {
        columns.push(Column::numbers("Start needs watts", "start_surge_up_to_W"));
    }
    Table {
        name: "power_out".into(),
        heading: "If the power fails on the design night: what must a generator carry?".into(),
        columns,
        rows: c.options.iter().map(|o| power_row(c, o, surge)).collect(),
        remark: Some(power_remark(c, surge, measure)),
    }
}

fn power_row(c: &Comparison, o: &OptionResult, surge: bool) -> Vec<Cell> {
    let out = &o.cold_night.power_out;
    let fed = out.without_power.is_some() && fed_without_a_break(c, o);
    // To the next ten, as nobody sizes a generator closer.
    let watts = |kw: f64| Cell::number((kw * 100.0).ceil() * 10.0, 0);
    let mut row = vec![
        Cell::text(&o.design.name),
        Cell::text(without_power_words(out.without_power) + if fed { ", fed day and night" } else { "" }),
        watts(out.strips_off.running_kw),
        Cell::cut(100.0 * out.strips_off.share_of_need),
        watts(out.strips_on.running_kw),
    ];
    if surge {
        row.push(out.start_surge_kw.map_or(Cell::Missing, |(_, most)| watts(most)));
    }
    row
}

/// Cut, so that a part never reads as all of it.
fn without_power_words(share: Option<f64>) -> String {
    match share {
        None => "no".into(),
        Some(share) if share < 1.0 => format!("{:.0}\u{a0}% of need", (100.0 * share).floor()),
        Some(_) => "yes".into(),
    }
}

fn power_remark(c: &Comparison, surge: bool, measure: Measure) -> String {
    let mut sentences: Vec<String> = falls(c, measure).into_iter().collect();
    sentences.push("Watts are what runs on the design night for heating alone, not all that is installed; lights, pumps and the rest come on top. Gains from people and sun are counted as in the year: without them the house cools faster.".into());
    sentences.extend(watts_words(c));
    if c.options.iter().flat_map(|o| &o.design.zones).any(|z| z.changeover.is_some()) {
        sentences.push("With strips off, a heat pump with a furnace behind it is switched off too.".into());
    }
    if surge {
        let (least, most) = START_SURGE;
        sentences.push(format!(
            "A single-speed compressor draws {least:.0} to {most:.0} times its running watts as it starts; the \
             greater is shown."
        ));
    }
    if c.options.iter().any(|o| unknown_start(c, o)) {
        sentences.push(
            "What a compressor of two speeds, or one that turns down, draws as it starts hangs on how it is started, which no label tells: ask its maker.".into(),
        );
    }
    sentences.extend(derating(c, measure));
    if c.fuels.find("propane").is_some_and(|f| c.machines.iter().any(|m| m.fuel == f)) {
        sentences.push(format!(
            "A propane generator gives about {}, burns even when idling, and empties the same tank as a propane \
             furnace.",
            measure.kwh_from_gallon_words(KWH_PER_GALLON)
        ));
    }
    sentences.join(" ")
}

/// Whether an option heats with a compressor without power from the line, and nothing tells its start.
fn unknown_start(c: &Comparison, o: &OptionResult) -> bool {
    let pump = heaters(c, o).any(|machine| machine.kind == MachineKind::HeatPump);
    pump && o.cold_night.power_out.start_surge_kw.is_none()
}

fn derating(c: &Comparison, measure: Measure) -> Option<String> {
    let share = c.options.first()?.cold_night.power_out.generator_share?;
    let height = measure.height_words(c.site.elevation_m?);
    let lost = (100.0 * (1.0 - share)).round();
    (lost >= 1.0).then(|| format!("At {height} a generator gives about {lost:.0} % less than its plate."))
}

/// How long each room stays warm without heat; the same for every option.
fn falls(c: &Comparison, measure: Measure) -> Option<String> {
    let first = c.options.first()?;
    let (warm, cold) = (
        measure.pick("55\u{a0}\u{b0}F", "13\u{a0}\u{b0}C"),
        measure.pick("40\u{a0}\u{b0}F", "4\u{a0}\u{b0}C"),
    );
    let zones = c.zones.iter().zip(&first.cold_night.zones);
    let parts: Vec<String> = zones
        .map(|(zone, z)| {
            let (to_55f, to_40f) = (fall_words(z.heat_off.to_55f), fall_words(z.heat_off.to_40f));
            format!("{} is at {warm} {to_55f} and at {cold} {to_40f}", zone.name)
        })
        .collect();
    let given = first.cold_night.zones.iter().any(|z| z.heat_off.to_55f != Fall::NotGiven);
    given.then(|| format!("Without heat that night, {}.", parts.join("; ")))
}

fn fall_words(fall: Fall) -> String {
    match fall {
        Fall::Hours(hours) => format!("after {} hours", grouped(hours.floor(), 0)),
        Fall::Never => "never".into(),
        Fall::NotGiven => "(no heat capacity given)".into(),
    }
}
