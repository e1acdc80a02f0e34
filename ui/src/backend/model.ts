/** The generated types under the names that the screens use, and the answers of the operations. */
export type * from './types';
export type { Answer, Request } from './backend';
import type { Obstacle, Report, Scene, Severity, Subject } from './types';

export type ObstacleShape = Obstacle['shape'];
export type ObstacleKind = ObstacleShape['kind'];
export type SceneShape = Scene['shapes'][number];
export type ReportSection = Report['sections'][number];
export type { Severity, Subject };
