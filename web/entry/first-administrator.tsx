/** What to do on a server that nobody can sign in to yet. */
export function FirstAdministrator() {
  return (
    <div className="state-note" role="note">
      <strong>Nobody can sign in here yet.</strong>
      <p>
        The first administrator is made on the machine that the server runs on. Open the link that
        the server printed when it started, or run there:
      </p>
      <code className="entry-command">
        npm run -s crossarm -- people add --email you@your-utility.example --name "Your name" --role
        administrator
      </code>
      <p>Whoever is administrator then invites the others, under “People and tokens”.</p>
    </div>
  )
}
