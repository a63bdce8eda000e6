/** One thing that must hold in the editor. */
export interface EditorTest {
  readonly name: string;
  run(): Promise<void>;
}
