//! Which tool: every turning tool of the shop is worked, those that cannot do it are named with the reason, and of those that
//! can the one that takes least time is chosen. A tool that the job names is judged, not swapped.

use super::cuts::{self, Cuts, depths_of};
use super::eased;
use super::edge::Edge;
use super::feed::{self, Feed};
use super::grip::Cut;
use super::piece::Eased;
use super::speed::{self, Speed};
use super::stands;
use super::{Amount, PASSES, Piece, TIME, TIME_A_PASS, Way, effort, grip_cut};
use crate::handbook::ToolMaterial;
use crate::handbook::constants::constant;
use crate::handbook::cutting::times;
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Bench, SetUp};
use crate::proof::{At, Check, Fact, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Minutes, Mm, MmPerRev, Newton, Quantity, Ratio, RevPerMin, Unit, figure};
use crate::shop::TurningTool;

/// The cutting data of a tool: everything that the cut needs.
pub(in crate::operations) struct CuttingData {
    pub edge: Edge,
    pub cuts: Cuts,
    pub speed: Speed,
    pub feed: Feed,
    /// The greatest of all cuts, its band up to the worst end.
    pub force: Worked<Newton>,
}

/// What gives the edge of a tool.
type ToEdge<'a> = dyn Fn(&mut Answer) -> Result<Edge, Refusal> + 'a;

/// The edge of a tool, worked when it is looked at.
type EdgeOf<'a> = Box<ToEdge<'a>>;

/// A tool that may cut: its name in the shop, and its edge.
pub(in crate::operations) struct Candidate<'a> {
    pub name: &'a At<String>,
    pub edge: EdgeOf<'a>,
}

/// What an operation asks of a tool beside what is asked of every edge: by its place in the list, none for one that is assumed.
pub(in crate::operations) type Also<'a> =
    &'a dyn Fn(&Bench, Option<usize>, &CuttingData, &mut Answer) -> Result<(), Refusal>;

/// The tools that an operation may take.
pub(in crate::operations) struct Tools<'a> {
    pub all: Vec<Candidate<'a>>,
    pub also: Also<'a>,
}

impl<'a> Tools<'a> {
    /// The turning tools of the shop.
    pub(in crate::operations) fn turning(bench: &Bench<'a>, also: Also<'a>) -> Self {
        let tools = bench.shop.into_iter().flat_map(|shop| shop.turning_tools());
        let candidate =
            |tool: &'a TurningTool| Candidate { name: &tool.name, edge: Box::new(move |row| of(tool, row)) };
        Self { all: tools.map(candidate).collect(), also }
    }
}

/// Whether the grip carries a cut.
pub(super) type Holds<'a> = &'a dyn Fn(Cut) -> bool;

/// Asks nothing more of a tool.
pub(in crate::operations) fn nothing_more(
    _: &Bench,
    _: Option<usize>,
    _: &CuttingData,
    _: &mut Answer,
) -> Result<(), Refusal> {
    Ok(())
}

/// One tool worked through.
struct Tried {
    cutting: Option<CuttingData>,
    /// Why it is out, worst reason first; none where it is kept.
    breaches: Vec<Words>,
    /// The worst verdict of what belongs to the tool.
    verdict: Verdict,
    minutes: f64,
    /// Whether grip and motor carry its cut, as far as anybody can say; of one that is out nobody asks.
    held: bool,
}

/// The checks that belong to the tool, in the order in which a breach is named.
const OF_THE_TOOL: [(&str, &str); 10] = [
    ("tool-hard-enough", "tool-not-hard-enough"),
    ("bite", "tool-does-not-bite"),
    ("most-depth", "tool-cuts-too-deep"),
    ("spindle-too-fast", "tool-too-fast"),
    ("finish", "tool-leaves-it-rough"),
    ("corner", "tool-not-for-the-corner"),
    ("shoulder-square", "tool-leaves-a-cone"),
    ("bar-in-hole", "bar-fills-the-hole"),
    ("bar-reach", "bar-too-short"),
    ("bar-slender", "bar-too-slender"),
];

/// Works every tool, chooses, and gives back what the chosen one cuts; none where it cannot be worked out (the answer says
/// why).
pub(super) fn choose(
    bench: &Bench,
    piece: &Piece,
    amount: &Amount,
    (tools, holds): (&Tools, Holds),
    answer: &mut Answer,
) -> Result<Option<CuttingData>, Refusal> {
    let also = tools.also;
    let tools = &tools.all;
    let mut tried: Vec<Tried> = Vec::new();
    for (at, tool) in tools.iter().enumerate() {
        let more = |cutting: &CuttingData, row: &mut Answer| also(bench, Some(at), cutting, row);
        let asked = Asked { bench, piece, amount, more: &more, holds };
        tried.push(try_edge(&asked, &Fact::from(&tool.name.value), &*tool.edge, answer)?);
    }
    let named = piece.asked.tool.map(|name| (name, tools.iter().position(|tool| tool.name.value == name.value)));
    let at = match named.and_then(|(_, at)| at).or_else(|| best(&tried)) {
        Some(at) => at,
        None => {
            let edge = assumed(piece)?;
            let assume = |row: &mut Answer| {
                row.assume_words(Words::of("tool").with("value", edge.name.clone()));
                row.fact("tool", edge.name.clone());
                Ok(edge.clone())
            };
            let more = |cutting: &CuttingData, row: &mut Answer| also(bench, None, cutting, row);
            let asked = Asked { bench, piece, amount, more: &more, holds };
            tried.push(try_edge(&asked, &edge.name, &assume, answer)?);
            tried.len() - 1
        }
    };
    let is_named = named.is_some_and(|(_, at)| at.is_some());
    reasons(&tried, at, is_named, answer);
    answer.choose_alternative(at);
    if let Some(tool) = tools.get(at) {
        let slips = |tried: &Tried| tried.breaches.is_empty() && !tried.held;
        let why = Words::of(match is_named {
            true => "tool-named",
            false if tried.get(at).is_some_and(|taken| taken.held) && tried.iter().any(slips) => "tool-that-is-held",
            false => "tool-that-suits",
        });
        answer.choose("tool", tool.name.value.clone(), why);
    } else if bench.shop.is_some() {
        nothing_suits(piece, answer);
    }
    if let Some((name, None)) = named.filter(|_| bench.shop.is_some()) {
        const LACKS: &str = "tool";
        answer.missing.push(Words::of(LACKS).with("wanted", name.value.clone()));
        // Each was worked out above: what nothing speaks against would do as well.
        let would_do = tools.iter().zip(&tried).filter(|(_, tried)| {
            tried.cutting.is_some() && tried.breaches.is_empty() && tried.verdict != Verdict::Fails
        });
        answer.serves.extend(would_do.map(|(tool, _)| (LACKS, Words::from(Fact::from(&tool.name.value)))));
        let check = Check::of_kind("tool-hard-enough", Verdict::Fails).with("edge", name.value.clone());
        answer.check(check.at(name.place)).remedy(Words::of("tool-of-the-shop"));
    }
    Ok(tried.get_mut(at).and_then(|tried| tried.cutting.take()))
}

/// What a tool is worked for.
struct Asked<'a> {
    bench: &'a Bench<'a>,
    piece: &'a Piece<'a>,
    amount: &'a Amount,
    more: &'a dyn Fn(&CuttingData, &mut Answer) -> Result<(), Refusal>,
    holds: Holds<'a>,
}

/// Works one tool as an alternative; where grip or motor do not carry its cut, held down to what they carry, if there is such a cut.
fn try_edge(asked: &Asked, name: &Fact, edge: &ToEdge, answer: &mut Answer) -> Result<Tried, Refusal> {
    let whole = try_cut(asked, asked.piece, (name, edge), asked.holds, answer)?;
    let Some(cutting) = whole.cutting.as_ref().filter(|_| !whole.held && whole.breaches.is_empty()) else {
        return Ok(whole);
    };
    let fed = Some(cutting.feed.step.number()).filter(|_| !cutting.feed.by_hand);
    let count = u32::try_from(cutting.cuts.divisions.len()).unwrap_or(u32::MAX);
    let from = (cutting.speed.step.number(), fed, count);
    let at = answer.alternatives.len().saturating_sub(1);
    let mut of_edge = OfEdge { asked, cutting, of: (name, edge), answer };
    let Some(held) = eased::until_held(asked.piece, from, &mut of_edge) else {
        return Ok(whole);
    };
    answer.alternatives.remove(at);
    Ok(held)
}

/// Works it so: cuts, speed, feed, force, time.
fn try_cut(
    asked: &Asked,
    piece: &Piece,
    (name, edge): (&Fact, &ToEdge),
    holds: Holds,
    answer: &mut Answer,
) -> Result<Tried, Refusal> {
    let Asked { bench, amount, more, .. } = *asked;
    let mut cutting = None;
    let mut wrong = false;
    let mut breaches = Vec::new();
    answer.alternative(bench, name.clone(), |bench, row| {
        let edge = edge(row)?;
        wrong = stands::hard_enough(bench, piece, &edge, row)?;
        let worked = cut(bench, piece, amount, edge, row)?;
        more(&worked, row)?;
        breaches = too_slow(bench, piece, &worked)?;
        cutting = Some(worked);
        Ok(())
    });
    let Some(row) = answer.alternatives.last().map(|alternative| &alternative.answer) else {
        return Err(Refusal::NotGiven { what: "a tool", key: "tool" });
    };
    let verdict_of = |id: &str| row.checks.iter().find(|check| check.id == id).and_then(Check::verdict);
    let breached = |(id, _): &&(&str, &str)| match *id {
        // An edge that is doubtful on so hard a metal is kept behind one that is not.
        "tool-hard-enough" => verdict_of(id) == Some(Verdict::Fails) || wrong,
        _ => verdict_of(id).is_some_and(|verdict| verdict != Verdict::Proven),
    };
    let own = OF_THE_TOOL.iter().filter(breached).map(|(_, reason)| Words::of(reason)).collect::<Vec<_>>();
    let unknown = row.refused.as_ref().map(|why| Words::of("tool-no-figures").with("why", why.to_string()));
    let verdict = OF_THE_TOOL.iter().filter_map(|(id, _)| verdict_of(id)).max().unwrap_or(Verdict::Proven);
    let minutes = row.value(TIME.key).map_or(f64::INFINITY, |time| time.number);
    let breaches: Vec<Words> = own.into_iter().chain(unknown).chain(breaches).collect();
    // What is out already is not asked what carries it.
    let carried = |cutting: &CuttingData| grip_cut(piece, cutting).map_or(true, holds);
    let strong = verdict_of(effort::CHECK) != Some(Verdict::Doubtful);
    let held = !breaches.is_empty() || cutting.as_ref().is_none_or(|cutting| strong && carried(cutting));
    Ok(Tried { cutting, breaches, verdict, minutes, held })
}

/// The cut of an edge, to be held down.
struct OfEdge<'a> {
    asked: &'a Asked<'a>,
    /// As it is where nothing holds it down.
    cutting: &'a CuttingData,
    of: (&'a Fact, &'a ToEdge<'a>),
    answer: &'a mut Answer,
}

impl OfEdge<'_> {
    /// Whether grip and motor carry it: that asks for its step and its force, and for nothing else of it.
    fn carries(&self, eased: Eased) -> Result<bool, Refusal> {
        let (piece, CuttingData { edge, cuts, speed, feed, .. }) = (self.asked.piece, self.cutting);
        let said = || Origin::Assumed("".into());
        let step = eased.step.map_or_else(|| speed.step.clone(), |most| Worked::exact(RevPerMin::new(most), said()));
        let fed = eased.feed.map_or_else(|| feed.step.clone(), |most| Worked::exact(MmPerRev::new(most), said()));
        let depths = eased.cuts.map_or_else(|| cuts.depths.clone(), |count| depths_of(self.asked.amount, count));
        let force = effort::greatest_force(piece, edge, &depths, &fed, &mut Answer::default())?;
        let strong = effort::is_strong_enough(self.asked.bench, piece, &force, &step)?;
        let last = depths.last().map_or(0.0, Worked::number);
        let cut = Cut { force: &force, step: &step, last, ..grip_cut(piece, self.cutting)? };
        Ok(strong && (self.asked.holds)(cut))
    }
}

impl eased::Aside for OfEdge<'_> {
    type Worked = Tried;

    fn carried(&self, eased: Eased) -> bool {
        self.carries(eased).unwrap_or(true)
    }

    fn bites(&self, cuts: u32) -> bool {
        let depths = depths_of(self.asked.amount, cuts);
        let check = depths.last().map(|shallowest| cuts::bites(self.asked.bench, &self.cutting.edge, shallowest));
        check.is_none_or(|check| check.map_or(true, |check| check.is_proven()))
    }

    fn suits(&mut self, eased: Eased) -> Option<Tried> {
        // A lighter cut would take a faster step of the table: what carries it was asked of this one.
        let eased = Eased { step: eased.step.or(Some(self.cutting.speed.step.number())), ..eased };
        let piece = Piece { eased, ..self.asked.piece.clone() };
        // That it is carried was found before.
        let tried = try_cut(self.asked, &piece, self.of, &|_| true, self.answer).ok()?;
        if tried.breaches.is_empty() {
            return Some(tried);
        }
        self.answer.alternatives.pop();
        None
    }
}

/// Everything that an edge does to the metal.
fn cut(bench: &Bench, piece: &Piece, amount: &Amount, edge: Edge, row: &mut Answer) -> Result<CuttingData, Refusal> {
    let cuts = cuts::divide(bench, piece, amount, &edge, row)?;
    let deepest = cuts.depths.first().map_or(0.0, Worked::number);
    let speed = speed::work(bench, piece, &edge, deepest, row)?;
    let feed = feed::work(bench, piece, &edge, &speed, row)?;
    let force = effort::work(bench, piece, &edge, &cuts.depths, &speed, &feed, row)?;
    time(piece, &cuts, &speed, &feed, row)?;
    Ok(CuttingData { edge, cuts, speed, feed, force })
}

/// Cutting time: one pass, and all of them.
fn time(piece: &Piece, cuts: &Cuts, speed: &Speed, feed: &Feed, answer: &mut Answer) -> Result<(), Refusal> {
    let (approach, overrun) = (constant("approach")?, constant("overrun")?);
    let one = match &piece.way {
        Way::Across | Way::Off => {
            times::facing_time(&piece.outside, &piece.inside, &approach, &overrun, &feed.step, &speed.step)?
        }
        Way::Along(length) | Way::Inside(length) => {
            let fed = times::length_fed(length, &approach, &overrun)?;
            let once = Worked::row(Ratio::new(1.0), "one pass: 1", Source::fixed("one at a time", Mark::Derived));
            times::turning_time(&fed, &feed.step, &speed.step, &once)?
        }
    };
    let one = answer.record(&TIME_A_PASS, one);
    answer.record(&TIME, times::time_of_passes(&one, &cuts.passes)?);
    Ok(())
}

impl CuttingData {
    /// What to aim at, where no step of the machine feeds it.
    pub(in crate::operations) fn tell_the_hand(&self, set_up: &mut SetUp) {
        if self.feed.by_hand {
            set_up.step("feed-by-hand");
        }
    }

    /// So many passes more at the last dial, and at the one at which it is measured before.
    pub(in crate::operations) fn springs(
        &mut self,
        last: u32,
        before_measured: u32,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        self.cuts.spring += last;
        self.cuts.before_measured = before_measured;
        let more = last + before_measured;
        if more == 0 {
            return Ok(());
        }
        self.cuts.passes = self.cuts.passes.shifted(f64::from(more), "passes more at the same dial");
        answer.record(&PASSES, self.cuts.passes.clone());
        let one = answer.value(TIME_A_PASS.key).map_or(0.0, |time| time.number);
        let says = format!("{} passes of {} min", self.cuts.passes.number(), figure(one));
        let all = Worked::method(
            Minutes::new(one * self.cuts.passes.number()),
            vec![says],
            Source::fixed("passes alike", Mark::Derived),
        );
        answer.record(&TIME, all);
        Ok(())
    }
}

/// A step that is too slow for the edge: carbide, CBN and ceramic want most of their speed, carbide in steel enough not to
/// build up an edge. High-speed steel takes any less.
fn too_slow(bench: &Bench, piece: &Piece, cutting: &CuttingData) -> Result<Vec<Words>, Refusal> {
    if bench.shop.is_none() || cutting.edge.material.is_steel() {
        return Ok(Vec::new());
    }
    let mut all = Vec::new();
    let least: Worked<Ratio> = constant("speed-share-warned")?;
    if cutting.speed.share.number() < least.number() {
        let share = format!("{:.0} %", 100.0 * cutting.speed.share.number());
        all.push(Words::of("tool-too-slow").with("share", share));
    }
    if speed::edge_builds_up(piece, &cutting.edge, &cutting.speed)? {
        all.push(Words::of("tool-builds-up").with("mean", Fact::figure(cutting.speed.mean.number(), Unit::MPerMin)));
    }
    Ok(all)
}

/// Of those kept the ones whose cut the grip carries, of these the best verdict, then the least time, then the order of the list; none kept: the one with fewest breaches of
/// those that can be worked out at all.
fn best(tried: &[Tried]) -> Option<usize> {
    let can = || tried.iter().enumerate().filter(|(_, tried)| tried.cutting.is_some());
    let order = |a: &Tried, b: &Tried| (a.verdict, a.breaches.len()).cmp(&(b.verdict, b.breaches.len()));
    let quick = |a: &Tried, b: &Tried| a.minutes.total_cmp(&b.minutes);
    let kept = can().filter(|(_, tried)| tried.breaches.is_empty());
    let kept = kept.min_by(|(_, a), (_, b)| order(a, b).then(quick(a, b)));
    let fewest = || can().min_by(|(_, a), (_, b)| a.breaches.len().cmp(&b.breaches.len()).then(order(a, b)));
    let held = can().filter(|(_, tried)| tried.breaches.is_empty() && tried.held);
    let held = held.min_by(|(_, a), (_, b)| order(a, b).then(quick(a, b)));
    held.or(kept).or_else(fewest).map(|(at, _)| at)
}

/// The reason against each that was not chosen: its first breach, else that another was named, or that it is less sure or takes
/// longer.
fn reasons(tried: &[Tried], chosen: usize, is_named: bool, answer: &mut Answer) {
    let Some((of_chosen, verdict, tried_is_held)) =
        tried.get(chosen).map(|tried| (tried.minutes, tried.verdict, tried.held))
    else {
        return;
    };
    for (at, (alternative, tried)) in answer.alternatives.iter_mut().zip(tried).enumerate() {
        if at == chosen {
            continue;
        }
        let minutes = |minutes: f64| Fact::figure(minutes, Unit::Min).to(Decimals::Exactly(2));
        let carried = tried.held || !tried_is_held;
        let kept = if !is_named && !carried {
            Words::of("tool-slips")
        } else if is_named {
            Words::of("tool-not-named").with("minutes", minutes(tried.minutes))
        } else if tried.verdict > verdict {
            Words::of("tool-less-sure")
        } else {
            Words::of("tool-slower").with("minutes", minutes(tried.minutes)).with("chosen", minutes(of_chosen))
        };
        alternative.why_not = Some(tried.breaches.first().cloned().unwrap_or(kept));
    }
}

/// Nothing in the shop can be worked out for this metal: a hard part fails, another is doubtful, and both go on the missing
/// list. The figures are those of an edge that would do.
fn nothing_suits(piece: &Piece, answer: &mut Answer) {
    let (missing, verdict) = match piece.too_hard_for_hss {
        true => (Words::of("hard-tool"), Verdict::Fails),
        false => (Words::of("tool").with("wanted", Fact::named("turning-tool-for-this-metal")), Verdict::Doubtful),
    };
    answer.missing.push(missing);
    let check = Check::of_kind("tool-hard-enough", verdict).with("edge", Fact::named("any-tool-of-the-shop"));
    answer.check(check).remedy(Words::of("tool-of-the-shop"));
}

/// An edge that nobody named: CBN on a hard part, else high-speed steel where the book has a row for it, with a small nose.
fn assumed(piece: &Piece) -> Result<Edge, Refusal> {
    let material = if piece.too_hard_for_hss || piece.cuts_as.kind() == Kind::HardSteel {
        ToolMaterial::Cbn
    } else if speed::book(piece, ToolMaterial::Hss, false).is_ok() {
        ToolMaterial::Hss
    } else {
        ToolMaterial::Carbide
    };
    let nose: Worked<Mm> = constant("nose-unknown")?;
    let nose_of_it = Fact::mm(nose.number()).to(Decimals::AsTyped);
    let name = Words::of("edge-with-nose").with("edge", material.text()).with("nose", nose_of_it);
    Ok(Edge { name: name.into(), material, nose, angle: constant("edge-angle-unknown")?, most_depth: None })
}

fn of(tool: &TurningTool, answer: &mut Answer) -> Result<Edge, Refusal> {
    answer.fact("tool", tool.name.value.clone());
    let angle = match &tool.edge_angle {
        Some(angle) => angle.into(),
        None => answer.assume("edge-angle", constant("edge-angle-unknown")?),
    };
    Ok(Edge {
        name: (&tool.name.value).into(),
        material: tool.material.value,
        nose: (&tool.nose).into(),
        angle,
        most_depth: tool.most_depth.as_ref().map(Worked::from),
    })
}
