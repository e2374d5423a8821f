//! What machines share: the hour, an outdoor unit, a day's fuel; and which of two heats for less.
//!
//! Start at [`Words::weighed`].

use super::words::Words;
use crate::equipment::Presence;
use crate::report::figures::grouped;
use crate::simulation::working::{Candidate, Step, Weighed};

impl Words<'_> {
    /// Both costs of an hour's heat, and whose hour it is.
    pub(super) fn weighed(&self, weighed: &Weighed) -> Vec<String> {
        let (winner, loser) = if weighed.second_wins { (1, 0) } else { (0, 1) };
        let why = if weighed.second_wins { "costs less" } else { "costs no more" };
        let verdict = format!(
            "  {} {why} than {}: the hour is its own as far as it can carry it.",
            self.name(winner),
            self.name(loser)
        );
        let mut lines = vec!["Which of the two heats for less, each at its own load:".to_owned()];
        for (place, one) in [&weighed.first, &weighed.second].into_iter().enumerate() {
            lines.extend(self.candidate(place, one));
        }
        lines.push(verdict);
        lines
    }

    fn candidate(&self, place: usize, one: &Candidate) -> Vec<String> {
        let name = self.name(place);
        let Some(cost_per_kwh) = one.cost_per_kwh else {
            return vec![format!("  {name} can give nothing in this hour.")];
        };
        let currency = &self.c.currency;
        let price = |worth: f64| format!("{currency}{}", grouped(worth, 5));
        let mut sum = format!("{} kW \u{d7} {}", grouped(one.draw_kw, 4), price(one.worth));
        if one.side_kw > 0.0 {
            sum += &format!(" + {} kW \u{d7} {}", grouped(one.side_kw, 4), price(one.side_worth));
        }
        if one.instead_kw > 0.0 {
            sum += &format!(" + {} kW \u{d7} {}", grouped(one.instead_kw, 4), price(one.side_worth));
        }
        let instead = match one.instead_kw > 0.0 {
            true => " (the last for what the furnace burns to temper its air, counted as electricity)",
            false => "",
        };
        let cost = format!("{currency}{}", grouped(one.cost, 5));
        let heat = match self.measure.pick("us", "si") {
            "us" => grouped(self.measure.power(one.in_room_kw), 3) + " kBtu",
            _ => grouped(one.in_room_kw, 3) + " kWh",
        };
        let how = self.running(&one.how, one.heat_kw, one.draw_kw);
        vec![
            format!("  {name}, for {heat} in the room:"),
            format!("  {how}"),
            format!(
                "    {sum} = {cost} an hour{instead}; {cost} / {heat} = {}.",
                self.for_heat(cost_per_kwh)
            ),
        ]
    }

    /// How two heaters share an hour that one of them cannot carry.
    pub(super) fn split(&self, step: &Step) -> Vec<String> {
        let Step::Split { first_kw, second_kw, need_kw, share } = step else { return Vec::new() };
        vec![format!(
            "So that both together bring {}, {} has ({} \u{2212} {}) / ({} \u{2212} {}) = {} of the hour and {} the rest.",
            self.q(*need_kw),
            self.name(1),
            self.q(*need_kw),
            self.q(*first_kw),
            self.q(*second_kw),
            self.q(*first_kw),
            grouped(*share, 4),
            self.name(0)
        )]
    }

    pub(super) fn turn(&self, heater: usize, share: f64, locked_out: bool) -> Vec<String> {
        let name = self.name(heater);
        let is_off = self.heaters.get(heater).is_some_and(|h| h.presence != Presence::On || h.interrupted);
        if share >= 1.0 || (share > 0.0 && is_off) {
            return Vec::new();
        }
        vec![match (share <= 0.0, locked_out) {
            (true, true) => format!(
                "{name} is locked out: outdoors {} is colder than its compressor lock-out of {}.",
                self.t(self.outdoor_c),
                self.lockout_c.map(|t| self.t(t)).unwrap_or_default()
            ),
            (true, false) if self.cheaper == Some(heater) => format!(
                "{name} has no part of this hour all the same: neither carries it, and the other one brings more."
            ),
            (true, false) => format!("{name} has no part of this hour: the other one has it."),
            (false, _) => format!("{name}, {} of the hour:", grouped(share, 4)),
        }]
    }

    /// What the other heads of an outdoor unit leave.
    pub(super) fn shared(&self, step: &Step) -> Vec<String> {
        let Step::Shared { unit_kw, asked, asked_kw, own_kw, left_kw, of_greatest, .. } = step else {
            return Vec::new();
        };
        let unit = asked.first().and_then(|(head, _)| self.c.machines.get(*head)?.outdoor_unit);
        let unit = unit.map_or("Its outdoor unit", |unit| self.machine(unit));
        let names: Vec<_> =
            asked.iter().map(|(head, kw)| format!("{} {}", self.machine(*head), self.q(*kw))).collect();
        let sum: Vec<_> = asked.iter().map(|(_, kw)| self.q(*kw)).collect();
        let verb = if *of_greatest { "could give" } else { "ask for" };
        let alone = if asked.len() == 1 { "" } else { " together" };
        let (unit_kw, asked_kw) = (self.q(*unit_kw), self.q(*asked_kw));
        vec![
            format!("  {unit} can give {unit_kw}{alone}; its heads {verb} {}:", names.join(", ")),
            match sum.len() {
                1 => format!(
                    "    {} \u{d7} {unit_kw} / {asked_kw} = {} is left to it.",
                    self.q(*own_kw),
                    self.q(*left_kw)
                ),
                _ => format!(
                    "    {} = {asked_kw}; {} \u{d7} {unit_kw} / {asked_kw} = {} at most is left to this one.",
                    sum.join(" + "),
                    self.q(*own_kw),
                    self.q(*left_kw)
                ),
            },
        ]
    }

    /// What a day's fuelling allows.
    pub(super) fn fuelled(&self, step: &Step) -> Vec<String> {
        let Step::Fuelled { heater, most_kwh, asked_kwh, share } = step else { return Vec::new() };
        let left = match self.is_steady {
            true => "of the day\u{2019}s fuel, spread over the day, for an hour",
            false => "left of the day\u{2019}s fuel until midnight",
        };
        vec![format!(
            "  {} has {} kWh {left}: {} kWh / {} kWh = {} of that.",
            self.name(*heater),
            grouped(*most_kwh, 4),
            grouped(*most_kwh, 4),
            grouped(*asked_kwh, 4),
            grouped(*share, 4)
        )]
    }
}
