from .cuts.cut import Cut as Cut
from .cuts.dovetails import Fingers as Fingers, Pins as Pins, Tails as Tails
from .cuts.edges import (
    Bead as Bead,
    Bevel as Bevel,
    Chamfer as Chamfer,
    Ease as Ease,
    EdgeGroove as EdgeGroove,
    Rabbet as Rabbet,
    Tongue as Tongue,
)
from .cuts.faces import BiscuitSlot as BiscuitSlot, Bore as Bore, Channel as Channel, Counterbore as Counterbore
from .cuts.gains import HingeGain as HingeGain
from .cuts.laps import Lap as Lap, Shoulder as Shoulder, Slot as Slot
from .cuts.legs import Station as Station, Taper as Taper, Turned as Turned
from .cuts.mortises import Mortise as Mortise, OpenMortise as OpenMortise
from .cuts.moulding import (
    Moulding as Moulding,
    RaisedEdge as RaisedEdge,
    cove as cove,
    fielded as fielded,
    ogee as ogee,
    round_over as round_over,
    waste as waste,
)
from .cuts.pockets import Pocket as Pocket
from .cuts.reliefs import relieved as relieved, relieved_cut as relieved_cut
from .cuts.sawn import SawCut as SawCut, SawnGroove as SawnGroove
from .cuts.shelf_bores import shelf_bores as shelf_bores
from .cuts.slanted_dado import SlantedDado as SlantedDado
from .cuts.sliding_dovetails import DovetailSocket as DovetailSocket, DovetailTongue as DovetailTongue
from .cuts.slots import SlottedHole as SlottedHole
from .cuts.tenons import Kerf as Kerf, Tenon as Tenon, TenonedEnd as TenonedEnd
from .cuts.through import Notch as Notch, Opening as Opening, Profile as Profile
from .drawers import Drawer as Drawer, DrawerOpening as DrawerOpening, drawer as drawer, runners as runners
from .errors import CutError as CutError, DesignError as DesignError
from .framed import Frame as Frame, Framed as Framed, frame_and_panel as frame_and_panel
from .hardware import (
    Hardware as Hardware,
    finish_nail as finish_nail,
    knob as knob,
    nail_through as nail_through,
    screw_pilot as screw_pilot,
    screw_shank as screw_shank,
    wood_screw as wood_screw,
)
from .joints.box import box_joint as box_joint
from .joints.breadboard import breadboard as breadboard
from .joints.bridle import bridle as bridle
from .joints.butt import (
    biscuited as biscuited,
    glued as glued,
    nailed as nailed,
    rests as rests,
    rests_at as rests_at,
    screwed as screwed,
)
from .joints.dovetail import dovetail as dovetail
from .joints.dowelled import dowelled as dowelled, dowelled_edges as dowelled_edges
from .joints.edge import fullest_tongue as fullest_tongue, tongue_and_groove as tongue_and_groove
from .joints.hinged import butt_hinges as butt_hinges, continuous_hinge as continuous_hinge, lid_stay as lid_stay
from .joints.housed import dado as dado, rabbet as rabbet
from .joints.joint import Contact as Contact, Joint as Joint
from .joints.lap import half_lap as half_lap
from .joints.miter import miter as miter
from .joints.mortise import loose_tongue as loose_tongue, mortise_and_tenon as mortise_and_tenon
from .joints.panel import (
    floats as floats,
    panel_in_frame as panel_in_frame,
    panel_run as panel_run,
    panel_tongue as panel_tongue,
)
from .joints.pocket import pocket_screwed as pocket_screwed
from .joints.scarf import scarf as scarf, scarf_length as scarf_length
from .joints.shelf_pins import on_pins as on_pins
from .joints.shiplap import ship_lap as ship_lap
from .joints.sliding_dovetail import sliding_dovetail as sliding_dovetail
from .joints.slot_screwed import slot_screwed as slot_screwed
from .joints.slotted import slotted as slotted
from .joints.splined import splined as splined
from .joints.tabbed import tabbed as tabbed
from .layout.arcs import (
    arc_length as arc_length,
    half_angle_from_chord as half_angle_from_chord,
    radius_from_chord_rise as radius_from_chord_rise,
)
from .layout.boards import (
    fill_straight_with_random as fill_straight_with_random,
    fill_with_random as fill_with_random,
    tangent_boards as tangent_boards,
)
from .layout.outline import (
    Outline as Outline,
    Point as Point,
    circle as circle,
    rectangle as rectangle,
    ring_sector as ring_sector,
    rounded as rounded,
)
from .parameters import (
    Angle as Angle,
    BoardWidths as BoardWidths,
    Length as Length,
    Parameters as Parameters,
    WidthList as WidthList,
    WidthRange as WidthRange,
    angle as angle,
    board_widths as board_widths,
    choice as choice,
    count as count,
    flag as flag,
    ratio as ratio,
    size as size,
)
from .piece import Piece as Piece, Placed as Placed
from .placement import Placement as Placement, Vector as Vector, place as place
from .stock import Stock as Stock, board as board, panel as panel, sheet as sheet
from .way_home import come as come, push as push, tip as tip
