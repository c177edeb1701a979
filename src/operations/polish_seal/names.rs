//! The names of the values of polishing a seal's track.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, MPerS, Mm, Ratio, Roughness};
use crate::shop::Gauge;

names! { pub(super),
    TRACK: Mm = new("track", "the diameter that the seal is made for");
    SIZE: Mm = new("size", "the track as measured, beside the groove").found(PartSize::Outside);
    GROOVE: Mm = new("groove", "depth of the groove, on the radius").form_of(&[PartSize::Outside]);
    METAL_OFF: Mm = new("metal_off", "metal that polishing takes, on the radius").leaves(PartSize::Gone);
    OFF_DIAMETER: Mm = new("off_diameter", "what that takes off the diameter").comes();
    DIAMETER_AFTER: Mm = new("diameter_after", "the track after polishing").left(Gauge::Outside).leaves(PartSize::Outside);
    DIAMETER_LEAST: Mm = lower("diameter_least", "the least that the track may have (h11)");
    RIM_BY_MINUTE: MPerMin = new("rim_speed_by_minute", "how far the rim runs in a minute");
    RIM_SPEED: MPerS = new("rim_speed", "how fast the track runs under the lip");
    HARDNESS: Ratio = new("hardness_of_track", "the hardness of the track, in HRC; of one that has none there in HV");
    RUN_OUT: Mm = new("run_out", "what an indicator reads on the track in a turn").form_of(&[PartSize::Outside]);
    OFF_CENTRE: Mm = new("seal_off_centre", "how far the seal sits off the axis of the shaft");
    OFF_IN_ALL: Mm = new("off_in_all", "run-out, and how far the seal sits off, together");
    FINISH_FOUND: Roughness = new("finish_found", "roughness of the track as found").form_of(&[PartSize::Outside]);
    FINISH_LEAST: Roughness = lower("finish_least", "the least roughness wanted: under it the lip runs dry");
    FINISH_MOST: Roughness = upper("finish_most", "the greatest roughness wanted");
    FINISH: Roughness = new("finish", "roughness of the track after polishing: the middle of what is wanted, or as it was left").left(Gauge::Depth);
    THREAD: Mm = new("thread_walked", "how far the oiled thread walks along the polished track as it is turned: not at all, or as it did").left(Gauge::Depth);
    TRACK_NEEDED: Mm = lower("track_needed", "fresh track that a seal needs which is shifted off its groove");
    PASSES: Mm = upper("passes_most", "the most that the track may have so that what goes over it passes");
}
