#include "ingest/walk_list.h"

namespace docket {

namespace {

// Topics of a conditions check by common practice.
constexpr std::array topics{
    WalkTopic{"Tools",
              {"Tools: those the standard names are at the station", "Tools: power, torque, speed and wear as set",
               "Tools: hang or lie where they are reached at once"}},
    WalkTopic{"Parts presentation",
              {"Parts: boxes, racks and order as the layout says", "Parts: none missing, none to be unpacked or turned",
               "Parts: no extra walk or search for any of them"}},
    WalkTopic{
        "Parts quality",
        {"Parts quality: they go together without force or rework", "Parts quality: same lot or supplier as studied"}},
    WalkTopic{"Layout and distances",
              {"Layout: distances walked and reached as the standard has them",
               "Layout: no obstacle, nobody else in the work zone"}},
    WalkTopic{"Fixture",
              {"Fixture: clamps, height and turn work as set", "Fixture: no waiting for it to open or to move"}},
    WalkTopic{"Light", {"Light: marks, sheets and connectors can be read from where the work is done"}},
    WalkTopic{"Heat and air", {"Heat, draught and noise as on the day of the study"}},
    WalkTopic{"Staffing", {"Staffing: as many people on this post and its neighbours as planned"}},
    WalkTopic{"Relief", {"Relief: comes when called and when planned; breaks are taken in full"}},
    WalkTopic{"Build sheet",
              {"Build sheet: current, readable, in a language understood",
               "Build sheet: the order and the mix built are those planned"}},
    WalkTopic{
        "Line speed",
        {"Line speed: measured over ten units, it is the line cycle time", "Line speed: spacing of the units is even"}},
    WalkTopic{"Help",
              {"Help: called and given as when the standard was set; it is logged",
               "Help: the helper does nothing that the standard gives to this post"}},
};

constexpr std::array<std::string_view, 4> introduction{
    "Check list for a walk to the station.   Station: ____________   Day and shift: ____________   Walked by (roles): "
    "____________",
    "Report a safety or health matter at once, in the usual way, and not on this sheet. Stop-work right first.",
    "State: as_standard, differs, or not_checked. Where it differs: since when (from), until when (to; blank: still "
    "so), what it touches "
    "(affects: elements, variants or sessions; blank: the whole station), and what was seen (note).",
    "Note what is seen of tools, parts and place. Nothing here is about a person; nobody works faster or slower for "
    "the walk.",
};

} // namespace

std::span<const WalkTopic> walk_topics() { return topics; }

std::span<const std::string_view> walk_introduction() { return introduction; }

} // namespace docket
