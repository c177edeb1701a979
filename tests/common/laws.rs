//! What holds of the pages of any plan: the laws of a laid-out page that ask what the plan says.

use setover::operations::Target;
use setover::plan::{Plan, Planned};
use setover::proof::{Check, Dialled, Fact, Origin, Outcome, Verdict, Weight};
use setover::quantity::{Decimals, Print, Rounds, Shown, Unit};
use setover::sheet::fonts::Font;
use setover::sheet::page::{Ink, Page, Role, Text};
use setover::shop::Paper;

/// Paper and units of print that are looked at.
pub const PRINTED: [(Paper, Print); 4] = [
    (Paper::A4, Print::Metric),
    (Paper::Letter, Print::Imperial),
    (Paper::A4, Print::Both),
    (Paper::Letter, Print::Both),
];

/// The strip, which every page has.
pub const STRIP: [&str; 5] = ["part", "id", "operation", "stamp", "facts"];

/// Texts of an area of a page, in their order.
pub fn texts<'a>(page: &'a Page, area: &str) -> Vec<&'a Text> {
    let of = |mark: &&setover::sheet::page::Mark| page.area_of(mark.area).is_some_and(|one| one.name == area);
    let text = |mark: &'a setover::sheet::page::Mark| match &mark.ink {
        Ink::Text(text) => Some(text),
        _ => None,
    };
    page.marks.iter().filter(of).filter_map(text).collect()
}

fn said(page: &Page, area: &str) -> String {
    flat(&texts(page, area).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" "))
}

/// A text without spaces, which the end of a line puts behind a hyphen too, without its mark of memory, and without what stands
/// in brackets in inches: where room is short that is left out.
fn flat(text: &str) -> String {
    let text: String = text.replace('ᵐ', "").replace('`', "\"").split_whitespace().collect();
    let mut said = String::new();
    let mut rest = text.as_str();
    while let Some((before, behind)) = rest.split_once('(') {
        said.push_str(before);
        let figure = |inside: &str| inside.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '−' | '±'));
        match behind.split_once("in)") {
            Some((inside, after)) if figure(inside) => rest = after,
            _ => {
                said.push('(');
                rest = behind;
            }
        }
    }
    said + rest
}

/// The pages of a sheet by its id; none where it was set line by line.
pub fn of_sheet<'a>(pages: &'a [Page], id: &str) -> Vec<&'a Page> {
    let own = |page: &&Page| texts(page, "id").first().is_some_and(|text| text.text == id);
    pages.iter().filter(own).collect()
}

/// The set-up that owns a check: the one that names it. One that owns none has no other's.
fn owner(planned: &Planned, check: &Check<String>) -> usize {
    planned.answer.set_ups.iter().position(|set_up| set_up.checks.contains(&check.id)).unwrap_or(0)
}

/// What is wrong with the pages of a plan.
pub fn broken(plan: &Plan, pages: &[Page]) -> Vec<String> {
    let mut found = Vec::new();
    for (operation, planned) in plan.operations.iter().enumerate() {
        for number in 0..planned.answer.set_ups.len().max(1) {
            let id = format!("{}.{}", operation + 1, number + 1);
            let own = of_sheet(pages, &id);
            let Some(first) = own.first() else { continue };
            let mut say = |law: u8, what: String| found.push(format!("{id}, law {law}: {what}"));
            let fails = planned.verdict == Verdict::Fails;
            findings(planned, number, &own, &mut say);
            if !fails {
                counted(planned, number, first, &mut say);
            }
            if fails && number == 0 {
                failing(plan, planned, first, &mut say);
            }
            if planned.stamp_note.is_none() && texts(first, "stamp").iter().any(|text| text.text.contains('…')) {
                say(10, format!("the reason is cut short: {:?}", texts(first, "stamp").last().map(|text| &text.text)));
            }
            if !fails {
                stamped_first(planned, number, first, &mut say);
            }
            figures(plan, first, &mut say);
            estimates(planned, &own, &mut say);
            numbered(&own, &mut say);
            if !fails {
                reckoned(planned, number, &own, &mut say);
                measured(planned, number, &own, &mut say);
                set_in_turn(planned, number, &own, &mut say);
                read_down(&own, &mut say);
                inward(plan, planned, number, &mut say);
            }
        }
        dials(planned, &mut |law, what| found.push(format!("{}, law {law}: {what}", operation + 1)));
    }
    found
}

/// Law 20: each number of the sketch is explained on its page, beside it or where what has no room there goes on.
fn numbered(own: &[&Page], say: &mut impl FnMut(u8, String)) {
    let is_number = |text: &&Text| text.font == Font::Bold && matches!(text.text.as_str(), "1" | "2" | "3" | "4");
    for page in own {
        // The numbers of places in a picture are as high as those of a drawing; those of a sketch are its own.
        let of = |areas: &[&str], role: Role| -> Vec<String> {
            let of_areas = areas.iter().flat_map(|area| texts(page, area));
            of_areas.filter(is_number).filter(|text| text.role == role).map(|text| text.text.clone()).collect()
        };
        let explained = of(&["beside", "cuts", "ways out"], Role::Drawing);
        for number in of(&["sketch"], Role::Body).iter().filter(|number| !explained.contains(number)) {
            say(20, format!("number {number} stands in the sketch and is explained nowhere"));
        }
    }
}

/// Law 9: each finding and its remedies stand in one zone of one page, proven ones first. What has no room is named.
fn findings(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(u8, String)) {
    let Some(first) = own.first() else { return };
    let everywhere =
        |text: &str| own.iter().any(|page| page.areas.iter().any(|area| said(page, &area.name).contains(text)));
    let made = planned.answer.checks.iter().filter(|check| check.verdict().is_some_and(|made| made != Verdict::Proven));
    for check in made.filter(|check| owner(planned, check) == number) {
        let asks = flat(&check.asks);
        let fails = planned.verdict == Verdict::Fails && check.stamps() == Some(Verdict::Fails);
        if fails && number > 0 {
            continue;
        }
        let name = flat(&check.id.replace('-', " "));
        let zones = ["verdict", "ways out"].map(|area| said(first, area));
        let Some((zone, at)) = zones.iter().find_map(|zone| Some((zone, zone.find(&asks)?))) else {
            let cut_off = zones.iter().any(|zone| zone.contains('…'));
            if !cut_off && !zones.iter().any(|zone| zone.contains(&name)) && !everywhere(&asks) {
                say(9, format!("{name} is neither shown nor named"));
            }
            continue;
        };
        let rest = &zone[at..];
        let mut places = Vec::new();
        let brief = planned.in_one_unit.iter().flat_map(|brief| &brief.checks).find(|other| other.id == check.id);
        for (nth, remedy) in check.remedies.iter().enumerate() {
            let rank = remedy.gives.map_or(3, |gives| gives as u8);
            let in_one = brief.and_then(|brief| brief.remedies.get(nth)).map(|remedy| flat(remedy));
            let said = [Some(flat(remedy)), in_one].into_iter().flatten();
            if let Some(at) = said.into_iter().find_map(|said| rest.find(said.trim_end_matches('.'))) {
                places.push((at, rank));
            } else if !everywhere(&flat(remedy)) && !rest.contains("→W") {
                say(9, format!("{name} without its remedy: {}", remedy.words));
            }
        }
        places.sort_unstable();
        if !places.is_sorted_by_key(|place| place.1) {
            say(9, format!("{name}: a remedy that proves stands behind one that does not: {places:?}"));
        }
    }
}

/// Law 10: of the doubtful checks that stand with the verdict the first is the one that the stamp names.
fn stamped_first(planned: &Planned, number: usize, first: &Page, say: &mut impl FnMut(u8, String)) {
    let (stamp, verdict) = (said(first, "stamp"), said(first, "verdict"));
    let own = planned.answer.checks.iter().filter(|check| owner(planned, check) == number);
    let doubtful: Vec<&Check<String>> = own.filter(|check| check.verdict() == Some(Verdict::Doubtful)).collect();
    let doubtful = doubtful.into_iter().filter(|check| check.stamps() == Some(Verdict::Doubtful));
    let names = |check: &Check<String>| stamp.contains(&flat(&check.called));
    let all: Vec<(Option<usize>, &Check<String>)> =
        doubtful.map(|check| (verdict.find(&flat(&check.asks)), check)).collect();
    // What the stamp says of no check is none of this.
    if !all.iter().any(|(_, check)| names(check)) {
        return;
    }
    // Where cautions take its room the verdict only names it, and the stamp says it.
    let is_named =
        |check: &Check<String>| verdict.contains(&flat(&check.id.replace('-', " "))) || verdict.contains('…');
    if all.iter().any(|(at, check)| at.is_none() && names(check) && is_named(check)) {
        return;
    }
    let shown = all.iter().filter_map(|(at, check)| Some(((*at)?, *check))).min_by_key(|(at, _)| *at);
    if let Some((_, check)) = shown
        && !names(check)
    {
        say(10, format!("{} stands first, and the stamp says {stamp}", check.called));
    }
}

/// Law 11: proven, shown and not checked are all that the set-up owns.
fn counted(planned: &Planned, number: usize, first: &Page, say: &mut impl FnMut(u8, String)) {
    let owned: Vec<&Check<String>> =
        planned.answer.checks.iter().filter(|check| owner(planned, check) == number).collect();
    let proven = owned.iter().filter(|check| check.is_proven()).count();
    let verdict = said(first, "verdict");
    if proven > 0 && !verdict.contains(&format!("{proven}proven")) && !verdict.contains('…') {
        say(11, format!("{proven} are proven: {verdict}"));
    }
    if verdict.starts_with("0proven") || verdict.contains(";0proven") {
        say(11, format!("of none it is said how many are proven: {verdict}"));
    }
    for check in owned.iter().filter(|check| check.state == Outcome::NotChecked && check.weight == Weight::Must) {
        if number == 0 && !verdict.contains(&flat(&check.id.replace('-', " "))) && !verdict.contains('…') {
            say(11, format!("{} was not checked, and nobody says so: {verdict}", check.id));
        }
    }
}

/// Laws 8 and 9: of what must not be cut the worst stands on the front; nothing is set; what fails is dimensioned.
fn failing(plan: &Plan, planned: &Planned, first: &Page, say: &mut impl FnMut(u8, String)) {
    let ways = said(first, "ways out");
    let mut failing: Vec<&Check<String>> =
        planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails)).collect();
    let outside = |check: &Check<String>| {
        check.judged.as_ref().map_or(0.0, |judged| -judged.margin / judged.limit.abs().max(judged.doubt).max(1e-9))
    };
    failing.sort_by(|one, other| outside(other).total_cmp(&outside(one)));
    let is_shown = |check: &&Check<String>| ways.contains(&flat(&check.asks));
    let has_room =
        first.marks.iter().filter(|mark| first.area_of(mark.area).is_some_and(|area| area.name == "ways out"));
    let end = has_room.map(|mark| mark.bounds.bottom).fold(0.0, f64::max);
    let floor = first.areas.iter().find(|area| area.name == "ways out").map_or(0.0, |area| area.bounds.bottom);
    for (at, check) in failing.iter().enumerate() {
        // Three lines at most say what a check is.
        if !is_shown(check) && (at == 0 || floor - end > 14.0) {
            say(9, format!("{} fails and does not stand on the front, {:.0} mm are free", check.id, floor - end));
        }
    }
    let large = first.marks.iter().filter(|mark| matches!(&mark.ink, Ink::Text(text) if text.role == Role::Figure));
    if large.count() > 0 {
        say(8, "something is set where nothing may be cut".into());
    }
    let sketch = said(first, "sketch");
    if planned.answer.set_ups.is_empty()
        || sketch.is_empty()
        || ["itsownpage", "Nosketch"].iter().any(|said| sketch.contains(said))
    {
        return;
    }
    // The two worst that have a figure of their own stand in the sketch; what had no room there, beside it.
    let drawn = sketch + &said(first, "beside");
    let of_a_size = failing.iter().filter(|check| check.about.is_some());
    for (judged, value) in
        of_a_size.filter_map(|check| Some((check.judged?, planned.answer.value(check.about?)?))).take(2)
    {
        let in_print = |print| {
            let ways = [Rounds::Nearest, Rounds::Down, Rounds::Up].map(|rounds| {
                let shown = |to| Shown::of(judged.got, Some(judged.doubt), judged.unit, (to, rounds), print).number;
                // Degrees are whole ones.
                [Decimals::Usual, Decimals::Digits(4), Decimals::Exactly(0)].map(|to| shown(to).to_string())
            });
            ways.into_iter().flatten()
        };
        let typed = match *value.origin {
            Origin::Typed(place) => plan.written.at(place).and_then(|size| size.nominal).map(flat),
            _ => None,
        };
        let figures = [Print::Metric, Print::Imperial].into_iter().flat_map(in_print).chain(typed);
        let rounded = [2, 0].map(|places| {
            let to = (Decimals::Exactly(places), value.rounds);
            Shown::of(value.number, Some(value.plus_minus), value.unit, to, Print::Metric).number.to_string()
        });
        if !figures.chain(rounded).any(|figure| drawn.contains(&figure)) {
            say(8, format!("{} fails and is not dimensioned: {drawn}", value.key));
        }
    }
}

/// Steps whose reading ends the cut after them.
const ENDS_A_CUT: [&str; 6] = [
    "measure-over-rim",
    "measure-through-bore",
    "measure-to-plate",
    "measure-trial-step",
    "measure-by-indicator",
    "measure-before-the-last",
];

/// Whether a text is the end of a line in which a dial, or the opening of a head, is reckoned.
fn ends_a_reckoning(text: &str) -> bool {
    text == "whole div" || text.ends_with(" to open")
}

/// Where the first third of a zone ends at the most, mm.
const FIRST_THIRD: f64 = 76.0;

/// Law 14: a cut that a reading ends has no last figure on its dial; in its place stands what is reckoned, and a division in
/// the unit of the reading.
fn reckoned(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(u8, String)) {
    let Some(set_up) = planned.answer.set_ups.get(number) else { return };
    let at = set_up.steps.iter().position(|step| ENDS_A_CUT.contains(&step.id));
    let Some(at) = at.filter(|at| set_up.steps.iter().skip(*at).any(|step| step.cut.is_some())) else { return };
    let passes = set_up.steps.iter().skip(at).filter_map(|step| step.cut.as_ref()).flat_map(|cut| &cut.passes);
    if !passes
        .into_iter()
        .any(|pass| matches!(pass.dial, Some(Dialled::Slide(_) | Dialled::Stop(_) | Dialled::Size { .. })))
    {
        return;
    }
    let all = |page: &Page| page.areas.iter().flat_map(|area| texts(page, &area.name)).cloned().collect::<Vec<Text>>();
    let pages: Vec<Vec<Text>> = own.iter().map(|page| all(page)).collect();
    let lines =
        pages.iter().flat_map(|page| page.iter().filter(|text| ends_a_reckoning(&text.text)).map(move |t| (page, t)));
    let mut found = 0;
    for (page, line) in lines {
        found += 1;
        // Spindle and feed may stand left of it.
        let third = |text: &&Text| text.at.x > FIRST_THIRD;
        let beside = |text: &&Text| (text.at.y - line.at.y).abs() < 4.0;
        if let Some(large) = page.iter().filter(beside).filter(third).find(|text| text.role == Role::Figure) {
            say(14, format!("{} stands where a reading decides", large.text));
        }
        let words: Vec<&str> = page.iter().filter(beside).map(|text| text.text.as_str()).collect();
        let parted = ["mm", "in"].into_iter().find_map(|unit| {
            let division = words.iter().find_map(|word| word.strip_prefix(&format!("{unit} ÷ ")))?;
            Some((unit, division.split(' ').next()?.parse::<f64>().ok()?))
        });
        let mut divisions = set_up.steps.iter().filter_map(|step| step.cut.as_ref()).flat_map(|cut| &cut.passes);
        let mut is_division = |(unit, division): (&str, f64)| {
            divisions.any(|pass| match &pass.dial {
                Some(Dialled::Slide(counted) | Dialled::Stop(counted)) => {
                    (counted.division_mm - division * if unit == "in" { 25.4 } else { 1.0 }).abs() < 1e-6
                }
                _ => false,
            })
        };
        if let Some((unit, division)) = parted
            && !is_division((unit, division))
        {
            say(14, format!("a reading in {unit} is parted by {division}"));
        }
    }
    // The spring pass at the end of such a cut stands where the cut does, and both before what is measured.
    let stands =
        |page: &&Vec<Text>, is: fn(&str) -> bool| page.iter().find(|text| is(&text.text)).map(|text| text.at.y);
    for page in &pages {
        let (last, spring) =
            (stands(&page, |text| text.ends_with("last:")), stands(&page, |text| text == "dial untouched"));
        let hold = stands(&page, |text| text.contains("Dial on"));
        if last.is_some() && hold.is_none() && set_up.steps.get(at).is_some_and(|step| step.hold_point.is_some()) {
            say(14, "the reading that ends a cut stands on another page than the cut".into());
        }
        let measure = stands(&page, |text| text == "Measure");
        let torn = |at: Option<f64>| last.zip(measure).zip(at).is_some_and(|((last, to), at)| last < to && at > to);
        if torn(spring) {
            say(14, "a spring pass stands behind what is measured".into());
        }
    }
    if found == 0 {
        say(14, "nothing is reckoned with the reading that ends a cut".into());
    }
}

/// As many sizes as the zone of what is measured always holds.
const MOST_ON_FRONT: usize = 2;

/// Readings of one size that all have their blank on the front.
const READINGS_ON_FRONT: usize = 12;

/// Law 15: what is measured stands on the front: a blank at least for each size, of one size alone as many as are asked, and
/// never more than are asked.
fn measured(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(u8, String)) {
    let (Some(set_up), Some(first)) = (planned.answer.set_ups.get(number), own.first()) else { return };
    let blanks_in = |page: &Page, area: &str| {
        let of = |mark: &&setover::sheet::page::Mark| {
            let here = page.area_of(mark.area).is_some_and(|one| one.name == area);
            here && matches!(mark.ink, Ink::Polygon { fill: setover::sheet::page::Fill::None, .. })
        };
        page.marks.iter().filter(of).count()
    };
    let goes_on = own.iter().skip(1).any(|page| !texts(page, "Measure").is_empty());
    let blanks = blanks_in(first, "measure");
    // A further size may have one blank for all its readings.
    let sizes = set_up.blanks.len();
    let asked: usize = set_up.blanks.iter().map(|blank| blank.readings.max(1)).sum();
    if goes_on {
        // Only more sizes than the zone holds go on: every one has its blank, what the step is about stands on the front.
        let later: usize = own.iter().skip(1).map(|page| blanks_in(page, "Measure")).sum();
        if sizes <= MOST_ON_FRONT {
            say(15, format!("{sizes} sizes are measured, and some of them overleaf"));
        }
        if !(sizes..=asked).contains(&(blanks + later)) {
            say(15, format!("{blanks} blanks on the front, {later} overleaf for {asked} readings of {sizes} sizes"));
        }
    }
    let least = match sizes {
        _ if goes_on => 1,
        // Of more than a dozen there are as many as there is room for.
        1 => asked.min(READINGS_ON_FRONT),
        _ => sizes,
    };
    if !(least..=asked).contains(&blanks) {
        say(15, format!("{blanks} blanks on the front for {asked} readings of {sizes} sizes"));
    }
}

/// What is set stands under the words of its step, on the page where those stand, and the steps stand in their order: nothing is
/// set for a step before one that comes first.
fn set_in_turn(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(u8, String)) {
    let Some(set_up) = planned.answer.set_ups.get(number) else { return };
    let is_step = |id: &str| !id.ends_with("-fluid") && id != "lubricate" && id != "measured-counts";
    let cuts: Vec<bool> = set_up.steps.iter().filter(|step| is_step(step.id)).map(|step| step.cut.is_some()).collect();
    let mut last = 0;
    for page in own {
        let mut here = 0;
        let mut set = Vec::new();
        // A short step may stand beside another, and the last in the bar of what is measured.
        for text in ["cuts", "Cuts", "Steps"].iter().flat_map(|area| texts(page, area)) {
            let caption = text.text.as_str();
            match caption.parse::<usize>() {
                Ok(step) if text.role == Role::Body && step == last + 1 => {
                    (last, here) = (step, step);
                    set.clear();
                }
                _ if ["SPINDLE", "FEED", "DIAL"].contains(&caption) => {
                    let own = here > 0 && cuts.get(here - 1).copied().unwrap_or(false);
                    // A ladder that goes on overleaf has what is set over it again.
                    let again = here == 0 && last > 0 && cuts.get(last - 1).copied().unwrap_or(false);
                    if !(own || again) || set.contains(&caption) {
                        say(6, format!("{caption} stands under step {here}, the last was {last}"));
                    }
                    set.push(caption);
                }
                _ => {}
            }
        }
    }
}

/// A ladder is read down: on one page its passes rise down the first column, and go on down the second.
fn read_down(own: &[&Page], say: &mut impl FnMut(u8, String)) {
    for page in own {
        let mut ladders: Vec<Vec<(f64, f64, usize)>> = Vec::new();
        for (id, element) in page.numbered_elements() {
            let Some((_, name)) = &element.field else { continue };
            let number = name.strip_prefix("pass ").and_then(|rest| rest.split(' ').next()?.parse::<usize>().ok());
            let tick = page.marks.iter().find(|mark| mark.element == Some(id));
            let Some((number, tick)) = number.zip(tick) else { continue };
            if page.area_of(tick.area).is_none_or(|area| !["cuts", "Cuts"].contains(&area.name.as_str())) {
                continue;
            }
            // A row has a box to tick and a blank of the same name.
            let at = (tick.bounds.left, tick.bounds.top, number);
            match ladders.last_mut() {
                Some(last) if last.iter().any(|pass| pass.2 == number) => {}
                // A row left of the columns is a cut of its own beneath them, which is counted on.
                Some(last) if number != 1 && last.iter().all(|pass| at.0 > pass.0 - 0.5) => last.push(at),
                _ => ladders.push(vec![at]),
            }
        }
        for mut ladder in ladders {
            ladder.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
            let passes: Vec<usize> = ladder.iter().map(|pass| pass.2).collect();
            if !passes.is_sorted() {
                say(6, format!("passes read down: {passes:?}"));
            }
        }
    }
}

/// Law 12: limits are printed inside the exact ones, in each unit of print.
fn inward(plan: &Plan, planned: &Planned, number: usize, say: &mut impl FnMut(u8, String)) {
    let exact = |fact: &Fact| match fact {
        Fact::Figure { number, doubt: None, unit: Unit::Mm, decimals, .. } if *decimals != Decimals::AsTyped => {
            Some(*number)
        }
        _ => None,
    };
    for blank in planned.answer.set_ups.get(number).into_iter().flat_map(|set_up| &set_up.blanks) {
        let Some(target @ Target::Between(low, high)) = &blank.target else { continue };
        let Some((low, high)) = exact(low).zip(exact(high)) else { continue };
        let of_unit = |unit: &str| if unit == "in" { 25.4 } else { 1.0 };
        let shown = target.shown(plan.print);
        let [least, most] = shown.as_slice() else { continue };
        for ((least, most), unit) in least.each().zip(most.each()).zip(most.each().map(|one| of_unit(one.unit))) {
            let size = |figure: String| figure.replace('−', "-").parse::<f64>().unwrap_or(f64::NAN) * unit;
            let (least, most) = (size(least.number.to_string()), size(most.number.to_string()));
            if !(low - 1e-6 <= least && most <= high + 1e-6) {
                say(12, format!("{}: {least} to {most} is not inside {low} to {high}", blank.words));
            }
        }
    }
}

/// Law 13: no figure is finer than it is read.
fn figures(plan: &Plan, first: &Page, say: &mut impl FnMut(u8, String)) {
    let most = if plan.print == Print::Metric { 3 } else { 4 };
    for text in ["cuts", "measure"].iter().flat_map(|area| texts(first, area)) {
        if !matches!(text.role, Role::Figure | Role::Second) || text.text.parse::<f64>().is_err() {
            continue;
        }
        let decimals = text.text.split_once('.').map_or(0, |parts| parts.1.len());
        // A window that would close has a digit more, and a feed step is what the plate says.
        let is_feed = text.text.starts_with("0.0");
        if decimals > most + 1 || decimals > most && !is_feed && !is_narrow(plan) {
            say(13, format!("{} is finer than anybody reads", text.text));
        }
    }
}

/// Law 13: a force, a torque or a power is an estimate, of which three digits count; the figure of a check and its limit have a
/// fourth where three would be judged otherwise.
fn estimates(planned: &Planned, own: &[&Page], say: &mut impl FnMut(u8, String)) {
    const UNITS: [&str; 7] = ["N", "lbf", "N·m", "lbf·ft", "kW", "hp", "N,"];
    let judged = planned.answer.checks.iter().filter_map(|check| check.judged);
    let ends: Vec<f64> =
        judged.flat_map(|judged| [judged.got, judged.limit, judged.margin, judged.at_worst_end]).collect();
    let is_judged = |figure: f64| {
        [1.0, 4.448_221_615, 1.355_817_948, 0.7457]
            .iter()
            .any(|unit| ends.iter().any(|end| (end.abs() - figure.abs() * unit).abs() <= 0.02 * end.abs()))
    };
    for text in own.iter().flat_map(|page| page.areas.iter().flat_map(|area| texts(page, &area.name))) {
        // A torque that somebody typed stands as it was typed.
        if text.text.contains("Tighten to ") {
            continue;
        }
        let words: Vec<&str> = text.text.split_whitespace().collect();
        for pair in words.windows(2) {
            let figure = pair[0].trim_start_matches(['+', '−', '±', '(']).replace('ᵐ', "");
            let Ok(number) = figure.parse::<f64>() else { continue };
            let digits = figure.replace('.', "");
            let digits = if figure.contains('.') { digits.trim_start_matches('0') } else { digits.trim_matches('0') };
            if UNITS.contains(&pair[1].trim_end_matches([')', '.', ';'])) && digits.len() > 3 && !is_judged(number) {
                say(13, format!("{} {} is finer than anybody knows it", pair[0], pair[1]));
            }
        }
    }
}

/// Whether some target is so narrow that it has a digit more.
fn is_narrow(plan: &Plan) -> bool {
    let blanks = plan.operations.iter().flat_map(|planned| &planned.answer.set_ups).flat_map(|set_up| &set_up.blanks);
    blanks.filter_map(|blank| blank.target.as_ref()).any(|target| match target {
        setover::operations::Target::Between(low, high) => match (low, high) {
            (setover::proof::Fact::Figure { number: low, .. }, setover::proof::Fact::Figure { number: high, .. }) => {
                (high - low).abs() < 0.006
            }
            _ => false,
        },
        _ => false,
    })
}

/// Law 13: what the hand turns is a whole number of divisions.
fn dials(planned: &Planned, say: &mut impl FnMut(u8, String)) {
    if planned.verdict == Verdict::Fails {
        return;
    }
    let steps = planned.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    for pass in steps.filter_map(|step| step.cut.as_ref()).flat_map(|cut| &cut.passes) {
        if let Some(Dialled::Slide(counted)) = &pass.dial
            && (counted.divisions - counted.divisions.round()).abs() > 1e-6
        {
            say(13, format!("{} divisions of {}", counted.divisions, counted.device));
        }
    }
}

/// How much of the height between the margins has ink, zone by zone, as a share of it.
pub fn filled(page: &Page) -> f64 {
    let zones = [
        "part",
        "id",
        "operation",
        "stamp",
        "facts",
        "sketch",
        "beside",
        "cuts",
        "ways out",
        "measure",
        "verdict",
        "foot",
    ];
    let of = |name: &&str| {
        let own = page.marks.iter().filter(|mark| page.area_of(mark.area).is_some_and(|area| area.name == **name));
        own.map(|mark| (mark.bounds.top, mark.bounds.bottom)).reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))
    };
    let mut spans: Vec<(f64, f64)> = zones.iter().filter_map(of).collect();
    spans.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (mut sum, mut end) = (0.0, 0.0_f64);
    for (top, bottom) in spans {
        sum += f64::max(bottom - top.max(end), 0.0);
        end = end.max(bottom);
    }
    sum / (page.paper.size().1 - 24.0)
}
