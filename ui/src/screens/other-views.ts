import type { PagePath } from '../state/page-table';
import AsBuilt from './build/AsBuilt.svelte';
import CallsPage from './build/CallsPage.svelte';
import Build from './build/Build.svelte';
import FitPage from './build/workshop/FitPage.svelte';
import LiftPage from './build/workshop/LiftPage.svelte';
import StagesPage from './build/workshop/StagesPage.svelte';
import JointsPage from './build/workshop/JointsPage.svelte';
import BuyPage from './build/workshop/BuyPage.svelte';
import CirclesPage from './build/workshop/CirclesPage.svelte';
import CollarsPage from './build/workshop/CollarsPage.svelte';
import CutPage from './build/workshop/CutPage.svelte';
import DrawingsPage from './build/workshop/DrawingsPage.svelte';
import WorkshopPage from './build/workshop/WorkshopPage.svelte';
import CardsPage from './build/cards/CardsPage.svelte';
import PegOutPage from './build/PegOutPage.svelte';
import RaisingPage from './build/RaisingPage.svelte';
import PhasePage from './build/PhasePage.svelte';
import Plumb from './build/Plumb.svelte';
import LightsPage from './build/lights/LightsPage.svelte';
import TensionPage from './build/tension/TensionPage.svelte';
import PackingPage from './build/season/PackingPage.svelte';
import SamePlacePage from './build/season/SamePlacePage.svelte';
import SeasonPage from './build/season/SeasonPage.svelte';
import Checks from './checks/Checks.svelte';
import ConflictsPage from './checks/ConflictsPage.svelte';
import PlacesPage from './checks/PlacesPage.svelte';
import SeenPage from './seen/SeenPage.svelte';
import SharesPage from './checks/SharesPage.svelte';
import SpreadPage from './checks/SpreadPage.svelte';
import Devices from './jobs/Devices.svelte';
import Jobs from './jobs/Jobs.svelte';
import JobMenu from './JobMenu.svelte';
import ScanCodes from './jobs/ScanCodes.svelte';
import ShowCodes from './jobs/ShowCodes.svelte';
import Taken from './jobs/Taken.svelte';
import Between from './measure/Between.svelte';
import BoundaryPage from './measure/BoundaryPage.svelte';
import BringPage from './measure/BringPage.svelte';
import Buried from './measure/Buried.svelte';
import FlatSlope from './measure/FlatSlope.svelte';
import Heights from './measure/Heights.svelte';
import MeasureHome from './measure/Home.svelte';
import InstrumentsPage from './measure/InstrumentsPage.svelte';
import LogPage from './measure/LogPage.svelte';
import Marks from './measure/Marks.svelte';
import PhotosPage from './measure/PhotosPage.svelte';
import PlacePage from './measure/PlacePage.svelte';
import Slopes from './measure/Slopes.svelte';
import SoilPage from './measure/SoilPage.svelte';
import Things from './measure/Things.svelte';
import WalkPage from './measure/WalkPage.svelte';
import Wires from './measure/Wires.svelte';
import BasePage from './parts/BasePage.svelte';
import GuyLevelPage from './parts/GuyLevelPage.svelte';
import Guys from './parts/Guys.svelte';
import AnchorKindPage from './parts/AnchorKindPage.svelte';
import PartsHome from './parts/Home.svelte';
import RigsPage from './parts/RigsPage.svelte';
import RopePage from './parts/RopePage.svelte';
import StakesPage from './parts/StakesPage.svelte';
import StrandsPage from './parts/StrandsPage.svelte';
import TopperPage from './parts/TopperPage.svelte';
import Tubes from './parts/Tubes.svelte';
import UnitsPage from './parts/UnitsPage.svelte';
import AirPage from './wind/AirPage.svelte';
import WindPage from './wind/WindPage.svelte';
import type { FirstPage, View } from './views.svelte';

export { JobMenu };

/** What draws each page but the first: one file of its own, so that the first map need not wait for it. */
export const OTHER_VIEWS: Record<Exclude<PagePath, FirstPage>, View> = {
  measure: MeasureHome,
  'measure/place': PlacePage,
  'measure/marks': Marks,
  'measure/marks/:which': Marks,
  'measure/slopes': Slopes,
  'measure/slopes/flat': FlatSlope,
  'measure/slopes/:which': Slopes,
  'measure/soil': SoilPage,
  'measure/things': Things,
  'measure/things/:which': Things,
  'measure/wires': Wires,
  'measure/wires/:which': Wires,
  'measure/buried': Buried,
  'measure/buried/:which': Buried,
  'measure/boundary': BoundaryPage,
  'measure/heights': Heights,
  'measure/heights/:which': Heights,
  'measure/photos': PhotosPage,
  'measure/walk': WalkPage,
  'measure/between': Between,
  'measure/between/:which': Between,
  'measure/bring': BringPage,
  'measure/instruments': InstrumentsPage,
  'measure/log': LogPage,
  'measure/log/:which': LogPage,
  parts: PartsHome,
  'parts/rigs': RigsPage,
  'parts/tubes': Tubes,
  'parts/guys': Guys,
  'parts/guys/:which': GuyLevelPage,
  'parts/guys/:which/anchor': AnchorKindPage,
  'parts/guys/:which/rope': RopePage,
  'parts/base': BasePage,
  'parts/stakes': StakesPage,
  'parts/strands': StrandsPage,
  'parts/topper': TopperPage,
  'parts/units': UnitsPage,
  build: Build,
  'build/phase/:which': PhasePage,
  'build/calls': CallsPage,
  'build/workshop': WorkshopPage,
  'build/workshop/fit': FitPage,
  'build/workshop/stages': StagesPage,
  'build/workshop/lift': LiftPage,
  'build/workshop/buy': BuyPage,
  'build/workshop/cut': CutPage,
  'build/workshop/drawings': DrawingsPage,
  'build/workshop/circles': CirclesPage,
  'build/workshop/base': JointsPage,
  'build/workshop/collars': CollarsPage,
  'build/peg-out': PegOutPage,
  'build/peg-out/:which': PegOutPage,
  'build/cards': CardsPage,
  'build/cards/:which': CardsPage,
  'build/raising': RaisingPage,
  'build/plumb': Plumb,
  'build/lights': LightsPage,
  'build/tension': TensionPage,
  'build/tension/:which': TensionPage,
  'build/packing': PackingPage,
  'build/again': SamePlacePage,
  'build/season': SeasonPage,
  'build/season/:which': SeasonPage,
  'build/as-built': AsBuilt,
  'build/as-built/:which': AsBuilt,
  checks: Checks,
  'checks/wind': WindPage,
  'checks/wind/air': AirPage,
  'checks/spread': SpreadPage,
  'checks/shares': SharesPage,
  'checks/both': ConflictsPage,
  'checks/places': PlacesPage,
  'checks/seen': SeenPage,
  'checks/seen/:which': SeenPage,
  jobs: Jobs,
  'jobs/:which': Jobs,
  devices: Devices,
  codes: ShowCodes,
  take: ScanCodes,
  'take/:which': Taken,
};
