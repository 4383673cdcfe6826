/** The standing words on what this program is for. */
export function Safety() {
  return (
    <footer className="safety">
      <b>Planning and training aid.</b> Flight rules, the flight surgeon, and the radiation and range safety
      authority in charge decide.{" "}
      <a href="licences.txt" target="_blank" rel="noreferrer">
        Licences
      </a>
    </footer>
  );
}
